package lookstep.server.frames;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.stream.Stream;
import lookstep.protocols.image.DngWriter;
import lookstep.protocols.image.ExifData;
import lookstep.server.frames.FolderNote.Kind;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** By a clock of its own and without the system's hints: a listing finds everything as well. */
class WatchedFolderTest {
    private static final long SECOND = 1_000_000_000L;

    @TempDir Path above;
    private Path folder;
    private final List<ArrivedFile> arrived = new ArrayList<>();
    private final List<FolderNote> notes = new ArrayList<>();
    private WatchedFolder watched;
    // Near the end of a long: a steady clock may begin anywhere and wrap.
    private long now = Long.MAX_VALUE - 5 * SECOND;

    @BeforeEach
    void watch() throws IOException {
        folder = Files.createDirectory(above.resolve("frames"));
        watched =
                new WatchedFolder(folder, Set.of(), arrived::add, notes::add, FolderWatch.silent());
        step(0);
    }

    @AfterEach
    void close() {
        watched.close();
    }

    private void step(double seconds) {
        long end = now + (long) (seconds * SECOND);
        while (end - now > SECOND / 4) {
            now += SECOND / 4;
            watched.doWork(now);
        }
        now = end;
        watched.doWork(now);
    }

    private void doWorkAt(long nanos) {
        now = nanos;
        watched.doWork(now);
    }

    private List<String> names() {
        return arrived.stream().map(file -> folder.relativize(file.path()).toString()).toList();
    }

    private List<Kind> kinds() {
        return notes.stream().map(FolderNote::kind).toList();
    }

    private String words() {
        return notes.get(notes.size() - 1).words();
    }

    @Test
    void takesAWholePictureOnceAndSaysWhatItIs() throws IOException {
        byte[] jpeg = TestPictures.jpeg(64, 48);
        Path file = Files.write(folder.resolve("LS_0001.JPG"), jpeg);
        step(4);
        step(30);
        assertEquals(List.of("LS_0001.JPG"), names());
        ArrivedFile taken = arrived.get(0);
        assertEquals(file, taken.path());
        assertEquals(jpeg.length, taken.sizeBytes());
        assertEquals(Files.getLastModifiedTime(file).toInstant(), taken.modified());
        assertEquals(List.of(), notes);
    }

    @Test
    void takesNoHalfFileWhereverItIsCut() throws IOException {
        byte[] jpeg = TestPictures.jpeg(40, 30);
        Path file = folder.resolve("a.jpg");
        for (int cut = 0; cut < jpeg.length; cut += 7) {
            Files.write(file, Arrays.copyOf(jpeg, cut));
            step(3.1);
            assertEquals(List.of(), names(), "cut at " + cut);
        }
        Files.write(file, Arrays.copyOf(jpeg, jpeg.length - 1));
        step(3.1);
        assertEquals(List.of(), names());
        Files.write(file, jpeg);
        step(3.1);
        assertEquals(List.of("a.jpg"), names());
    }

    @Test
    void aWriterThatStallsBeforeThePreviewBehindThePictureIsWaitedFor() throws IOException {
        int[] main = new int[1];
        byte[] both =
                TestPictures.twoInOne(TestPictures.jpeg(64, 48), TestPictures.jpeg(32, 24), main);
        Path file = Files.write(folder.resolve("b.jpg"), Arrays.copyOf(both, main[0]));
        step(4);
        assertEquals(List.of(), names());
        Files.write(
                file, Arrays.copyOfRange(both, main[0], both.length), StandardOpenOption.APPEND);
        step(4);
        assertEquals(List.of("b.jpg"), names());
        assertEquals(both.length, arrived.get(0).sizeBytes());
    }

    @Test
    void tellsOfAFileThatKeepsArrivingAndOfOneThatStopped() throws IOException {
        byte[] jpeg = TestPictures.jpeg(400, 300);
        Path file = Files.write(folder.resolve("slow.jpg"), Arrays.copyOf(jpeg, 400));
        step(0.5);
        long found = now;
        doWorkAt(found + WatchedFolder.MENTION_NANOS - 1);
        assertEquals(List.of(), kinds());
        doWorkAt(found + WatchedFolder.MENTION_NANOS - 1 + WatchedFolder.LOOK_EVERY_NANOS);
        assertEquals(List.of(Kind.STILL_ARRIVING), kinds());
        doWorkAt(found + WatchedFolder.GIVE_UP_NANOS - 1);
        assertEquals(List.of(Kind.STILL_ARRIVING), kinds());
        doWorkAt(found + WatchedFolder.GIVE_UP_NANOS - 1 + WatchedFolder.LOOK_EVERY_NANOS);
        assertEquals(List.of(Kind.STILL_ARRIVING, Kind.STOPPED_HALF_WAY), kinds());
        assertTrue(words().contains("slow.jpg") && words().contains("send it again"), words());
        step(60);
        assertEquals(2, notes.size());
        Files.write(file, jpeg);
        step(4);
        assertEquals(List.of("slow.jpg"), names());
    }

    @Test
    void tellsOfWhatIsNoPicture() throws IOException {
        byte[] noise = new byte[5000];
        new Random(7).nextBytes(noise);
        Files.write(folder.resolve("noise.jpg"), noise);
        step(6);
        assertEquals(List.of(Kind.NOT_A_PICTURE), kinds());
        assertEquals(List.of(), names());
    }

    @Test
    void anEmptyFileIsGivenUp() throws IOException {
        Files.createFile(folder.resolve("empty.jpg"));
        step(20);
        assertEquals(List.of(Kind.STILL_ARRIVING, Kind.STOPPED_HALF_WAY), kinds());
        assertTrue(words().contains("is empty"), words());
        assertEquals(List.of(), names());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                ".hidden.jpg",
                "._LS_0001.JPG",
                "x.jpg.part",
                "x.jpg.tmp",
                "x.tmp",
                "notes.txt",
                "raw.NEF.xmp"
            })
    void leavesOtherNamesAlone(String name) throws IOException {
        Files.write(folder.resolve(name), TestPictures.jpeg(40, 30));
        step(15);
        assertEquals(List.of(), names());
        assertEquals(List.of(), notes);
    }

    @Test
    void takesAFileThatIsRenamedIntoPlaceOrMovedFromElsewhere() throws IOException {
        Path part = Files.write(folder.resolve("c.jpg.part"), TestPictures.jpeg(40, 30));
        Path other = Files.write(above.resolve("d.jpg"), TestPictures.jpeg(48, 30));
        step(4);
        assertEquals(List.of(), names());
        Files.move(part, folder.resolve("c.jpg"), StandardCopyOption.ATOMIC_MOVE);
        step(4);
        Files.move(other, folder.resolve("d.JPEG"));
        step(4);
        assertEquals(List.of("c.jpg", "d.JPEG"), names());
    }

    @Test
    void looksIntoTheSubfoldersThatCamerasMake() throws IOException {
        Path deep = Files.createDirectories(folder.resolve("DCIM/100ABC"));
        Files.write(deep.resolve("e.jpg"), TestPictures.jpeg(40, 30));
        Path tooDeep = Files.createDirectories(folder.resolve("1/2/3"));
        Files.write(tooDeep.resolve("f.jpg"), TestPictures.jpeg(40, 30));
        Path hidden = Files.createDirectories(folder.resolve(".Trash"));
        Files.write(hidden.resolve("g.jpg"), TestPictures.jpeg(40, 30));
        step(4);
        assertEquals(List.of("DCIM/100ABC/e.jpg"), names());
    }

    @Test
    void aFolderWithAPicturesNameIsNone() throws IOException {
        Path odd = Files.createDirectory(folder.resolve("x.jpg"));
        Files.write(odd.resolve("inside.jpg"), TestPictures.jpeg(40, 30));
        step(15);
        assertEquals(List.of("x.jpg/inside.jpg"), names());
        assertEquals(List.of(), notes);
    }

    @Test
    void linksThatLoopHarmNothing() throws IOException {
        Files.createSymbolicLink(folder.resolve("round"), folder);
        Files.createSymbolicLink(folder.resolve("self.jpg"), folder.resolve("self.jpg"));
        Files.createSymbolicLink(folder.resolve("nowhere.jpg"), folder.resolve("gone"));
        Files.write(folder.resolve("h.jpg"), TestPictures.jpeg(40, 30));
        step(15);
        assertEquals(List.of("h.jpg"), names());
        assertEquals(List.of(), notes);
    }

    @Test
    void namesWithOddCharactersAreTaken() throws IOException, InterruptedException {
        // The shell makes them, so that the JVM's own encoding of names plays no part.
        Path jpeg = Files.write(above.resolve("plain"), TestPictures.jpeg(40, 30));
        for (String name :
                List.of("a b.jpg", "%41+#;&.jpg", "-n.jpg", "\\303\\274.jpg", "\\377\\n.jpg")) {
            Process copy =
                    new ProcessBuilder(
                                    "sh",
                                    "-c",
                                    "cp \"$1\" \"$2/$(printf '%b' \"$3\")\"",
                                    "sh",
                                    jpeg.toString(),
                                    folder.toString(),
                                    name.replace("\\3", "\\03"))
                            .inheritIO()
                            .start();
            assertEquals(0, copy.waitFor());
        }
        step(4);
        assertEquals(5, arrived.size(), names()::toString);
        for (ArrivedFile file : arrived) {
            assertArrayEquals(Files.readAllBytes(jpeg), Files.readAllBytes(file.path()));
        }
    }

    @Test
    void knownFilesAreNotTakenAgain() throws IOException {
        Files.write(folder.resolve("old.jpg"), TestPictures.jpeg(40, 30));
        Path changed = Files.write(folder.resolve("changed.jpg"), TestPictures.jpeg(40, 30));
        Set<KnownFile> known = KnownFile.allIn(folder);
        assertEquals(2, known.size());
        Files.write(changed, TestPictures.jpeg(44, 30));
        arrived.clear();
        try (WatchedFolder again = new WatchedFolder(folder, known, arrived::add, notes::add)) {
            for (long t = 0; t < 20 * SECOND; t += SECOND / 2) {
                again.doWork(t);
            }
        }
        assertEquals(List.of("changed.jpg"), names());
        assertEquals(
                Set.of(KnownFile.of(folder, arrived.get(0))),
                Set.of(
                        new KnownFile(
                                "changed.jpg",
                                Files.size(changed),
                                Files.getLastModifiedTime(changed).toInstant())));
    }

    @Test
    void theSameNameWithOtherBytesIsANewFrame() throws IOException {
        Path file = Files.write(folder.resolve("i.jpg"), TestPictures.jpeg(40, 30));
        step(4);
        byte[] other = TestPictures.jpeg(44, 30);
        Files.write(file, Arrays.copyOf(other, other.length / 2));
        step(4);
        assertEquals(1, arrived.size());
        Files.write(file, other);
        step(4);
        assertEquals(List.of("i.jpg", "i.jpg"), names());
        assertEquals(other.length, arrived.get(1).sizeBytes());
    }

    @Test
    void theSameBytesAgainAreNot() throws IOException {
        byte[] jpeg = TestPictures.jpeg(40, 30);
        Path file = Files.write(folder.resolve("j.jpg"), jpeg);
        step(4);
        Files.setLastModifiedTime(file, FileTime.fromMillis(1_000_000_000_000L));
        step(4);
        Files.delete(file);
        step(4);
        Files.write(file, jpeg);
        step(4);
        Files.write(file, new byte[] {1, 2, 3}, StandardOpenOption.APPEND);
        step(4);
        assertEquals(List.of("j.jpg"), names());
        Files.setLastModifiedTime(file, FileTime.fromMillis(1_100_000_000_000L));
        step(4);
        assertEquals(List.of("j.jpg"), names());
    }

    @Test
    void severalAtOnceComeInTheOrderOfTheirTimes() throws IOException {
        for (int i = 0; i < 10; i++) {
            Path file =
                    Files.write(
                            folder.resolve("k" + (9 - i) + ".jpg"), TestPictures.jpeg(40 + i, 30));
            Files.setLastModifiedTime(file, FileTime.fromMillis(1_700_000_000_000L + i * 1000L));
        }
        step(4);
        assertEquals(
                List.of(
                        "k9.jpg", "k8.jpg", "k7.jpg", "k6.jpg", "k5.jpg", "k4.jpg", "k3.jpg",
                        "k2.jpg", "k1.jpg", "k0.jpg"),
                names());
    }

    @Test
    void aFolderThatGoesIsToldOfAndWatchingGoesOn() throws IOException {
        Files.write(folder.resolve("l.jpg"), TestPictures.jpeg(40, 30));
        step(4);
        Path aside = Files.move(folder, above.resolve("aside"));
        step(4);
        step(10);
        assertEquals(List.of(Kind.FOLDER_GONE), kinds());
        assertTrue(words().contains(folder.toString()), words());
        Files.move(aside, folder);
        step(1);
        assertEquals(List.of(Kind.FOLDER_GONE, Kind.FOLDER_BACK), kinds());
        Files.write(folder.resolve("m.jpg"), TestPictures.jpeg(44, 30));
        step(4);
        assertEquals(List.of("l.jpg", "m.jpg"), names());
    }

    @Test
    void aFolderThatIsNotThereYetIsWaitedFor() throws IOException {
        Path later = above.resolve("later");
        try (WatchedFolder waiting = new WatchedFolder(later, Set.of(), arrived::add, notes::add)) {
            waiting.doWork(0);
            assertEquals(List.of(Kind.FOLDER_GONE), kinds());
            Files.createDirectory(later);
            Files.write(later.resolve("n.jpg"), TestPictures.jpeg(40, 30));
            waiting.doWork(WatchedFolder.LIST_WITHOUT_HINTS_NANOS - 1);
            assertEquals(0, arrived.size());
            waiting.doWork(WatchedFolder.LIST_WITHOUT_HINTS_NANOS);
            assertEquals(1, arrived.size());
        }
    }

    @Test
    void listsAtItsTimeAndNotANanosecondBefore() throws IOException {
        // Old and without hints: only a listing can find it.
        Path sub = Files.createDirectory(folder.resolve("sub"));
        step(4);
        long listed = now;
        watched.close();
        watched = new WatchedFolder(folder, Set.of(), arrived::add, notes::add);
        watched.doWork(listed);
        Path outside = Files.write(above.resolve("o.jpg"), TestPictures.jpeg(40, 30));
        watched.close();
        Files.move(outside, sub.resolve("o.jpg"));
        watched.doWork(listed + WatchedFolder.LIST_EVERY_NANOS - 1);
        assertEquals(List.of(), names());
        watched.doWork(listed + WatchedFolder.LIST_EVERY_NANOS);
        assertEquals(List.of("sub/o.jpg"), names());
    }

    @Test
    void originalsAreNeitherChangedNorMoved() throws IOException {
        byte[] whole = TestPictures.jpeg(64, 48);
        byte[] half = Arrays.copyOf(whole, whole.length / 2);
        Path one = Files.write(folder.resolve("p.jpg"), whole);
        Path two = Files.write(folder.resolve("q.jpg"), half);
        FileTime before = FileTime.fromMillis(1_600_000_000_000L);
        Files.setLastModifiedTime(one, before);
        Files.setLastModifiedTime(two, before);
        step(20);
        assertEquals(1, arrived.size());
        new PreviewMaker().make(one);
        new PreviewMaker().make(two);
        assertArrayEquals(whole, Files.readAllBytes(one));
        assertArrayEquals(half, Files.readAllBytes(two));
        assertEquals(before, Files.getLastModifiedTime(one));
        assertEquals(before, Files.getLastModifiedTime(two));
        try (Stream<Path> all = Files.list(folder)) {
            assertEquals(2, all.count());
        }
    }

    private static byte[] dng() {
        return DngWriter.write(
                ExifData.builder().fNumber(4).build(),
                TestPictures.jpeg(64, 48),
                60,
                40,
                new byte[2400]);
    }

    @Test
    void aRawFileIsTakenWhenItIsWholeAndHasRested() throws IOException {
        byte[] raw = dng();
        Path file = Files.write(folder.resolve("LS_0001.DNG"), Arrays.copyOf(raw, 500));
        step(1);
        Files.write(file, raw);
        step(0.5);
        long changed = firstLookAfterChange();
        doWorkAt(changed + PictureKind.TIFF_RAW.restNanos() - 1);
        assertEquals(List.of(), names());
        doWorkAt(changed + PictureKind.TIFF_RAW.restNanos());
        assertEquals(List.of("LS_0001.DNG"), names());
        assertTrue(arrived.get(0).raw());
        assertEquals(4, arrived.get(0).exif().fNumber().orElseThrow());
        assertEquals(List.of(), notes);
    }

    /** The next file is found by a listing, at the time that is returned. */
    private long firstLookAfterChange() throws IOException {
        arrived.clear();
        watched.close();
        watched =
                new WatchedFolder(folder, Set.of(), arrived::add, notes::add, FolderWatch.silent());
        now += SECOND;
        watched.doWork(now);
        return now;
    }

    @Test
    void aRawFileThatIsCutAnywhereIsNotTaken() throws IOException {
        byte[] raw = dng();
        Path file = folder.resolve("a.nef");
        for (int percent = 0; percent < 100; percent++) {
            Files.write(file, Arrays.copyOf(raw, raw.length * percent / 100));
            step(3.1);
            assertEquals(List.of(), names(), "cut at " + percent + " %");
        }
        step(20);
        assertEquals(Kind.STOPPED_HALF_WAY, kinds().get(kinds().size() - 1));
        Files.write(file, raw);
        step(3.1);
        assertEquals(List.of("a.nef"), names());
    }

    @Test
    void anotherKindOfRawMustRestForASecondAndSaysSo() throws IOException {
        Files.write(folder.resolve("a.CR3"), new byte[5000]);
        long found = firstLookAfterChange();
        doWorkAt(found + SECOND - 1);
        assertEquals(List.of(), names());
        doWorkAt(found + SECOND);
        assertEquals(List.of("a.CR3"), names());
        assertTrue(arrived.get(0).raw());
        assertTrue(
                arrived.get(0).notes().get(0).contains("stopped growing"),
                arrived.get(0).notes()::toString);
    }

    @Test
    void aRawFileThatKeepsGrowingIsWaitedFor() throws IOException {
        Path file = Files.write(folder.resolve("a.raf"), new byte[1000]);
        for (int i = 0; i < 12; i++) {
            step(0.5);
            Files.write(file, new byte[1000], StandardOpenOption.APPEND);
        }
        assertEquals(List.of(), names());
        assertEquals(List.of(Kind.STILL_ARRIVING), kinds());
        step(2);
        assertEquals(List.of("a.raf"), names());
        assertEquals(13_000, arrived.get(0).sizeBytes());
    }

    @Test
    void aRawFileThatIsNoneIsTold() throws IOException {
        Files.write(folder.resolve("a.dng"), TestPictures.jpeg(64, 48));
        step(6);
        assertEquals(List.of(Kind.NOT_A_PICTURE), kinds());
        assertTrue(words().contains("not the RAW picture"), words());
        assertEquals(List.of(), names());
    }

    @Test
    void whatWasMovedHereWholeNeedNotRest() throws IOException {
        for (String name : List.of("a.dng", "b.cr3", "c.jpg")) {
            Path file = folder.resolve(name);
            Files.write(
                    file,
                    name.endsWith("g") && name.startsWith("c") ? TestPictures.jpeg(64, 48) : dng());
            watched.wholeByTransfer(file);
        }
        watched.wholeByTransfer(folder.resolve("gone.dng"));
        watched.wholeByTransfer(folder.resolve("../frames/notes.txt"));
        doWorkAt(now + 1);
        assertEquals(List.of("a.dng", "b.cr3", "c.jpg"), names());
        step(10);
        assertEquals(3, arrived.size());
        assertThrows(
                IllegalArgumentException.class,
                () -> watched.wholeByTransfer(above.resolve("elsewhere.jpg")));
        assertThrows(
                IllegalArgumentException.class,
                () -> watched.wholeByTransfer(folder.resolve("../elsewhere.jpg")));
        assertThrows(IllegalArgumentException.class, () -> watched.wholeByTransfer(folder));
    }

    @Test
    void whatWasMovedHereIsStillLookedAt() throws IOException {
        byte[] raw = dng();
        Path file = Files.write(folder.resolve("a.dng"), Arrays.copyOf(raw, raw.length - 1));
        watched.wholeByTransfer(file);
        step(11);
        assertEquals(List.of(), names());
        assertEquals(Kind.STOPPED_HALF_WAY, kinds().get(kinds().size() - 1));
    }

    /** A name of 255 octets, the most that file systems take; marks that turn the text round. */
    @Test
    void strangeNamesAreTakenAsTheyAre() throws IOException {
        List<String> strange =
                List.of("x".repeat(251) + ".jpg", "..a..jpg.jpg", "gpj.\u202Eb.jpg", "'; rm.jpg");
        for (String name : strange) {
            try {
                Files.write(folder.resolve(name), TestPictures.jpeg(40, 30));
            } catch (java.nio.file.InvalidPathException noSuchName) {
                // the JVM's encoding of names cannot say it here
                assertEquals(2, strange.indexOf(name));
                Files.write(folder.resolve("instead.jpg"), TestPictures.jpeg(40, 30));
            }
        }
        step(4);
        // those that begin with a dot are hidden
        assertEquals(3, arrived.size(), names()::toString);
        assertEquals(List.of(), notes);
    }

    @Test
    void aQuietFolderIsNoWork() {
        step(4);
        assertFalse(watched.doWork(now + 1) > 0);
    }
}
