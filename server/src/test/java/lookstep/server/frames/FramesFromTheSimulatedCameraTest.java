package lookstep.server.frames;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import lookstep.protocols.image.ExifData;
import lookstep.server.frames.FolderNote.Kind;
import lookstep.server.frames.PreviewResult.Preview;
import lookstep.simulator.gear.CardWriter;
import lookstep.simulator.gear.Fault;
import lookstep.simulator.gear.LightSnapshot;
import lookstep.simulator.gear.SimulatedCamera;
import lookstep.simulator.gear.View;
import lookstep.simulator.model.colour.Xyz;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.scene.Reflectance;
import lookstep.simulator.model.scene.Room;
import lookstep.simulator.model.scene.Scene;
import lookstep.simulator.model.space.Vec3;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FramesFromTheSimulatedCameraTest {
    private static final long SECOND = 1_000_000_000L;

    @TempDir Path folder;
    private final List<ArrivedFile> arrived = new ArrayList<>();
    private final List<Kind> kinds = new ArrayList<>();
    private long now;

    private void watchFor(WatchedFolder watched, long seconds) {
        for (long end = now + seconds * SECOND; now < end; now += SECOND / 4) {
            watched.doWork(now);
        }
    }

    private SimulatedCamera camera() {
        Reflectance grey = Reflectance.grey(0.18);
        View view =
                new View(
                        new Scene(
                                List.of(), new Room(8, 8, 3, 2, grey, grey, grey), List.of(), 300),
                        List.of(),
                        new Xyz(0.95, 1, 1.09),
                        new Camera(
                                new Vec3(0, -4, 1.5),
                                new Vec3(0, 0, 1.5),
                                50,
                                2.8,
                                1.0 / 60,
                                800,
                                5600));
        return new SimulatedCamera(
                () -> view,
                () -> new LightSnapshot(Map.of(), 0),
                Clock.fixed(Instant.parse("2031-05-02T12:03:05.678Z"), ZoneOffset.ofHours(-3)),
                new CardWriter(folder),
                320,
                200,
                9);
    }

    @Test
    void aWholePictureIsTakenWithItsWords() throws IOException {
        try (WatchedFolder watched =
                new WatchedFolder(
                        folder,
                        Set.of(),
                        arrived::add,
                        note -> kinds.add(note.kind()),
                        FolderWatch.silent())) {
            watchFor(watched, 1);
            Path file = camera().photograph().orElseThrow();
            watchFor(watched, 4);
            assertEquals(List.of(file), arrived.stream().map(ArrivedFile::path).toList());
            assertEquals(List.of(), arrived.get(0).notes());
            ExifData exif = arrived.get(0).exif();
            assertEquals(Optional.of("simulated 50 mm"), exif.lensModel());
            assertEquals(
                    Optional.of(LocalDateTime.parse("2031-05-02T09:03:05.678")), exif.takenAt());
            Preview preview = assertInstanceOf(Preview.class, new PreviewMaker().make(file));
            assertEquals(320, preview.widthPixels());
            assertEquals(200, preview.heightPixels());
        }
    }

    @Test
    void halfAFileIsNotTakenAndSaidAndTheNextIsTaken() throws IOException {
        try (WatchedFolder watched =
                new WatchedFolder(
                        folder,
                        Set.of(),
                        arrived::add,
                        note -> kinds.add(note.kind()),
                        FolderWatch.silent())) {
            SimulatedCamera camera = camera();
            for (double part : new double[] {0, 0.02, 0.5, 0.9999}) {
                camera.misbehave(new Fault.HalfFile(part));
                camera.photograph();
            }
            watchFor(watched, 20);
            assertEquals(List.of(), arrived);
            assertEquals(
                    List.of(
                            Kind.STILL_ARRIVING,
                            Kind.STILL_ARRIVING,
                            Kind.STILL_ARRIVING,
                            Kind.STILL_ARRIVING,
                            Kind.STOPPED_HALF_WAY,
                            Kind.STOPPED_HALF_WAY,
                            Kind.STOPPED_HALF_WAY,
                            Kind.STOPPED_HALF_WAY),
                    kinds);
            Path next = camera.photograph().orElseThrow();
            watchFor(watched, 4);
            assertEquals(List.of(next), arrived.stream().map(ArrivedFile::path).toList());
        }
    }

    @Test
    void garbledBytesAreSaidToBeNoPicture() throws IOException {
        try (WatchedFolder watched =
                new WatchedFolder(
                        folder,
                        Set.of(),
                        arrived::add,
                        note -> kinds.add(note.kind()),
                        FolderWatch.silent())) {
            SimulatedCamera camera = camera();
            camera.misbehave(new Fault.Garbled());
            camera.photograph();
            watchFor(watched, 20);
            assertEquals(List.of(), arrived);
            assertEquals(List.of(Kind.NOT_A_PICTURE), kinds);
        }
    }
}
