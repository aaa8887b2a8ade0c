package lookstep.server.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import javax.imageio.ImageIO;
import lookstep.protocols.image.ExifData;
import lookstep.protocols.image.ExifWriter;
import lookstep.server.frames.PreviewMaker;
import lookstep.server.live.Frame;
import lookstep.server.live.Journal;
import lookstep.server.live.Links;
import lookstep.server.live.Live;
import lookstep.server.live.LiveState;
import lookstep.server.live.ShotFacts;
import lookstep.server.live.Showing;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FrameIntakeTest {
    private static final long SECOND = 1_000_000_000;

    @TempDir Path dir;

    private final BlockingQueue<String> previews = new LinkedBlockingQueue<>();
    private final Links links = new Links(() -> {});
    private Path folder;
    private Journal journal;
    private Live live;
    private FrameIntake intake;
    private long now;
    private long clock = 1_800_000_000_000L;

    @BeforeEach
    void makeFolder() throws IOException {
        folder = Files.createDirectory(dir.resolve("frames"));
    }

    @AfterEach
    void close() {
        intake.close();
        journal.close();
    }

    private void open() throws IOException {
        journal = Journal.open(dir.resolve("journal"));
        live = new Live(journal, List.of("a", "b"), "", () -> clock);
        intake =
                new FrameIntake(
                        folder,
                        live,
                        links,
                        shot -> new ShotFacts("look of " + shot, List.of("Ines"), ""),
                        new FramePictures.Makers(
                                new PreviewMaker()::make, original -> Optional.empty()),
                        () -> {},
                        () -> clock);
        intake.tellPreviews((number, preview) -> previews.add("made"));
    }

    /** The folder is listed every few seconds at the latest, on this clock. */
    private void passSeconds(int seconds) {
        for (int i = 0; i < seconds * 10; i++) {
            now += SECOND / 10;
            intake.doWork(now);
        }
    }

    private void photograph(String name, int grey) throws IOException {
        BufferedImage image = new BufferedImage(64, 48, BufferedImage.TYPE_INT_RGB);
        for (int i = 0; i < 64 * 48; i++) {
            image.setRGB(i % 64, i / 64, grey * 0x010101);
        }
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ImageIO.write(image, "jpeg", out);
        ExifData exif =
                ExifData.builder()
                        .fNumber(5.6)
                        .seconds(1 / 125.0)
                        .iso(3200)
                        .whiteBalanceKelvin(3000)
                        .takenAt(LocalDateTime.parse("2026-01-02T03:04:05.678"))
                        .build();
        Files.write(folder.resolve(name), ExifWriter.insert(out.toByteArray(), exif));
    }

    private String cameraLink() {
        return links.all().get(0).up() + ": " + links.all().get(0).says();
    }

    @Test
    void aFrameIsInTheJournalWithItsShotAndItsWordsAndThenOnThePages() throws Exception {
        open();
        live.step(0);
        photograph("LS_0001.JPG", 90);
        passSeconds(10);
        LiveState state = live.state();
        assertEquals(1, state.frames().size());
        assertEquals("a", state.frames().get(0).shot());
        assertEquals("f/5.6, 1/125 s, ISO 3200, 3000 K", state.frames().get(0).says());
        assertEquals("2026-01-02T03:04:05.678", state.frames().get(0).takenAt());
        assertEquals("made", previews.poll(30, TimeUnit.SECONDS));
        assertEquals(state.newestFrame(), intake.pictures().newest(live.state()));
        assertEquals("true: frames come in at " + folder, cameraLink());
    }

    @Test
    void whatLayThereBeforeIsLeftOutAndNothingIsTakenTwiceAfterARestart() throws Exception {
        photograph("OLD.JPG", 10);
        open();
        passSeconds(10);
        assertEquals(0, live.state().frames().size());
        photograph("LS_0001.JPG", 90);
        passSeconds(10);
        assertEquals(1, live.state().frames().size());
        intake.close();
        journal.close();

        photograph("LS_0002.JPG", 120); // while the program was down
        previews.clear();
        open();
        passSeconds(10);
        assertEquals(
                List.of("LS_0001.JPG", "LS_0002.JPG"),
                live.state().frames().stream().map(f -> f.file().path()).toList());
        assertEquals("made", previews.poll(30, TimeUnit.SECONDS));
    }

    @Test
    void aFrameThatTheJournalCannotTakeWaitsAndIsTold() throws Exception {
        open();
        journal.close(); // as good as a full disk: nothing can be appended
        photograph("LS_0001.JPG", 90);
        passSeconds(10);
        assertEquals(0, live.state().frames().size());
        assertTrue(
                cameraLink().startsWith("false: 1 frames wait and the originals are safe"),
                cameraLink());
        assertTrue(Files.exists(folder.resolve("LS_0001.JPG")));
    }

    @Test
    void afterARestartTheBandSeesTheNewestThatIsStillThere() throws Exception {
        open();
        photograph("LS_0001.JPG", 90);
        passSeconds(10);
        photograph("LS_0002.JPG", 120);
        passSeconds(10);
        intake.close();
        journal.close();
        Files.delete(folder.resolve("LS_0002.JPG"));
        previews.clear();
        open();
        assertEquals("made", previews.poll(30, TimeUnit.SECONDS));
        assertEquals(1, intake.pictures().newest(live.state()).orElseThrow().number());
    }

    @Test
    void aFolderThatGoesIsToldAndOneThatComesBackToo() throws Exception {
        open();
        passSeconds(10);
        Files.delete(folder);
        passSeconds(10);
        assertTrue(cameraLink().startsWith("false: "), cameraLink());
        Files.createDirectory(folder);
        passSeconds(10);
        assertEquals("true: frames come in at " + folder, cameraLink());
    }

    @Test
    void whatIsOddIsToldUntilTheNextGoodFrame() throws Exception {
        open();
        Files.write(folder.resolve("HALF.JPG"), new byte[] {(byte) 0xff, (byte) 0xd8, (byte) 0xff});
        passSeconds(60);
        assertTrue(cameraLink().contains("HALF.JPG"), cameraLink());
        photograph("LS_0001.JPG", 90);
        passSeconds(10);
        assertFalse(cameraLink().contains("HALF.JPG"), cameraLink());
    }

    @Test
    void theSamePictureUnderAnotherNameIsNoOtherFrame() throws Exception {
        open();
        photograph("LS_0001.JPG", 90);
        passSeconds(10);
        Files.copy(folder.resolve("LS_0001.JPG"), folder.resolve("COPY.JPG"));
        photograph("LS_0002.JPG", 91);
        passSeconds(10);
        assertEquals(
                List.of("LS_0001.JPG", "LS_0002.JPG"),
                live.state().frames().stream().map(f -> f.file().path()).toList());
        assertEquals("COPY.JPG", live.state().leftOut().get(0).path());
        intake.close();
        journal.close();
        open();
        passSeconds(10);
        assertEquals(2, live.state().frames().size());
        assertEquals(1, live.state().leftOut().size());
    }

    @Test
    void everyFileOfAFrameIsToldOnce() throws Exception {
        open();
        List<String> told = new ArrayList<>();
        intake.tell((number, file) -> told.add(number + " " + file.path()));
        Files.createDirectory(folder.resolve("ines-body"));
        photograph("ines-body/LS_0001.JPG", 90);
        photograph("LS_0001.JPG", 80);
        passSeconds(10);
        assertEquals(
                Set.of("ines-body/LS_0001.JPG", "LS_0001.JPG"),
                told.stream().map(t -> t.substring(2)).collect(Collectors.toSet()));
        assertEquals(
                Set.of("simulated camera", "simulated camera, ines-body"),
                live.state().frames().stream().map(Frame::camera).collect(Collectors.toSet()));
    }

    /** Its bytes are no picture that can be read; the JPEG that comes later can. */
    @Test
    void aRawFileThatCannotBeShownIsShownByItsJpeg() throws Exception {
        open();
        live.step(0);
        Files.write(folder.resolve("LS_0001.CR3"), new byte[100]);
        passSeconds(10);
        assertEquals(1, live.state().frames().size());
        assertTrue(intake.pictures().newest(live.state()).isEmpty());
        photograph("LS_0001.JPG", 90);
        passSeconds(10);
        assertEquals("made", previews.poll(30, TimeUnit.SECONDS));
        Frame frame = intake.pictures().newest(live.state()).orElseThrow();
        assertEquals(1, frame.number());
        assertEquals(2, frame.files().size());
        assertEquals("2026-01-02T03:04:05.678", frame.takenAt());
    }

    @Test
    void aFileThatIsOnlyTouchedWhileTheProgramIsDownIsNoOtherFrame() throws Exception {
        open();
        photograph("LS_0001.JPG", 90);
        passSeconds(10);
        intake.close();
        journal.close();
        Files.setLastModifiedTime(
                folder.resolve("LS_0001.JPG"), FileTime.fromMillis(1_900_000_000_000L));
        open();
        passSeconds(10);
        assertEquals(1, live.state().frames().size());
        assertEquals(1, live.state().leftOut().size());
    }

    @Test
    void afterARestartTheBandGetsTheKeptFrameThatItIsToSee() throws Exception {
        open();
        photograph("LS_0001.JPG", 90);
        passSeconds(10);
        photograph("LS_0002.JPG", 91);
        passSeconds(10);
        live.mark(1, Frame.Mark.KEPT);
        intake.close();
        journal.close();
        open();
        previews.clear();
        live.show(Showing.Mode.KEPT, 0);
        intake.pictures().makeForBand(live.state());
        long deadline = System.nanoTime() + 30 * SECOND;
        while (intake.pictures().forBand(live.state()).isEmpty()) {
            assertTrue(System.nanoTime() - deadline < 0, "nothing is shown");
            previews.poll(1, TimeUnit.SECONDS);
        }
        assertEquals(1, intake.pictures().forBand(live.state()).orElseThrow().number());
    }
}
