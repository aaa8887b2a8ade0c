package lookstep.server.ptpip;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Stream;
import lookstep.protocols.ptpip.EventCode;
import lookstep.protocols.ptpip.ObjectFormat;
import lookstep.protocols.ptpip.ObjectInfo;
import lookstep.protocols.ptpip.Operation;
import lookstep.simulator.gear.CameraFile;
import lookstep.simulator.gear.Fault;
import lookstep.simulator.gear.PtpIpCamera;
import lookstep.simulator.gear.PtpIpCamera.Offers;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The link and a simulated camera over real sockets of this machine. */
@Timeout(120)
class PtpIpCameraLinkTest {
    static final UUID GUID = UUID.fromString("00112233-4455-6677-8899-aabbccddeeff");

    /** As usual, but no test waits for seconds. */
    static final Patience SHORT =
            new Patience(
                    1_500_000_000L, 400_000_000L, 400_000_000L, 50_000_000L, 20_000_000, 100_000_000);

    @TempDir Path frames;
    private final List<AutoCloseable> open = new ArrayList<>();
    private PtpIpCamera camera;
    private Received received;
    private int port;

    @AfterEach
    void end() throws Exception {
        for (AutoCloseable each : open) {
            each.close();
        }
    }

    private void cameraWith(Offers offers) throws IOException {
        Clock clock = Clock.fixed(Instant.parse("2026-03-01T20:00:00Z"), ZoneOffset.UTC);
        camera = new PtpIpCamera(offers, clock, () -> camera.put("RELEASED.JPG", Shots.small(99)));
        port = camera.start(0).getPort();
        open.add(0, camera);
    }

    private PtpIpCameraLink link() {
        PtpIpCameraLink link =
                new PtpIpCameraLink(new CameraAddress("127.0.0.1", port), GUID, SHORT);
        received = new Received(frames);
        open.add(0, link.start(received));
        return link;
    }

    private static void assertHolds(Path file, byte[] content) throws IOException {
        assertArrayEquals(content, Files.readAllBytes(file), file.toString());
    }

    /** Nothing is left half: each file that is there under a name of its own is one of these. */
    private void assertOnly(int files) throws IOException {
        try (Stream<Path> all = Files.walk(frames)) {
            List<Path> there = all.filter(Files::isRegularFile).toList();
            assertEquals(files, there.size(), there.toString());
            assertTrue(
                    there.stream().noneMatch(f -> f.getFileName().toString().startsWith(".")),
                    there.toString());
        }
    }

    @Test
    void onlyNewPicturesComeWholeAndTheSmallPictureFirst() throws Exception {
        cameraWith(Offers.ALL);
        camera.put("OLD.JPG", Shots.small(1));
        link();
        received.awaitUp();
        assertEquals("Simulated camera is connected.", received.lastSaid());
        byte[] large = Shots.large(2);
        byte[] raw = Shots.raw(700_000, 3);
        Path sent = camera.send(List.of(new CameraFile("JPG", large), new CameraFile("RAW", raw)));
        received.awaitWhole(2);
        assertEquals(Path.of("LS_0001.JPG"), sent);
        Path folder = frames.resolve("camera 127.0.0.1 port " + port);
        assertEquals(
                List.of(folder.resolve("LS_0001.JPG"), folder.resolve("LS_0001.RAW")),
                received.whole());
        assertHolds(folder.resolve("LS_0001.JPG"), large);
        assertHolds(folder.resolve("LS_0001.RAW"), raw);
        assertEquals(
                List.of("early LS_0001.JPG", "whole LS_0001.JPG", "whole LS_0001.RAW"),
                received.order());
        assertOnly(2);
    }

    @Test
    void aLinkCutWithinAFileGoesOnWhereItStopped() throws Exception {
        cameraWith(Offers.ALL);
        link();
        received.awaitUp();
        camera.misbehave(new Fault.HalfFile(0.6));
        byte[] large = Shots.large(4);
        camera.send(List.of(new CameraFile("JPG", large)));
        received.awaitWhole(1);
        assertHolds(received.whole().get(0), large);
        assertOnly(1);
        assertTrue(received.said().size() >= 3, "up, down, up: " + received.said());
    }
}
