package lookstep.server.ptpip;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.stream.Stream;
import lookstep.protocols.ptpip.Operation;
import lookstep.protocols.ptpip.OperationRequest;
import lookstep.server.gear.CameraControl.Standing;
import lookstep.simulator.gear.PtpIpCamera;
import lookstep.simulator.gear.PtpIpCamera.Offers;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A link and a simulated camera over real sockets of this machine. */
@Timeout(120)
abstract class LinkCase {
    static final UUID GUID = UUID.fromString("00112233-4455-6677-8899-aabbccddeeff");

    /** As usual, but no test waits for seconds. */
    private static final Patience SHORT =
            new Patience(
                    1_500_000_000L,
                    400_000_000L,
                    400_000_000L,
                    50_000_000L,
                    20_000_000L,
                    100_000_000L);

    @TempDir Path frames;
    Received received;
    PtpIpCamera camera;
    int port;
    final List<Standing> standings = new ArrayList<>();
    private final List<AutoCloseable> open = new ArrayList<>();
    private final CameraClock clock = new CameraClock();

    /** Stands still until it is moved. */
    private static final class CameraClock extends Clock {
        private volatile Instant now = Instant.parse("2026-03-01T20:00:00Z");

        @Override
        public ZoneId getZone() {
            return ZoneOffset.UTC;
        }

        @Override
        public Clock withZone(ZoneId zone) {
            throw new UnsupportedOperationException();
        }

        @Override
        public Instant instant() {
            return now;
        }
    }

    @AfterEach
    void end() throws Exception {
        for (AutoCloseable each : open) {
            each.close();
        }
    }

    void later() {
        clock.now = clock.now.plusSeconds(60);
    }

    void cameraWith(Offers offers) throws IOException {
        camera = new PtpIpCamera(offers, clock, () -> camera.put("RELEASED.JPG", Shots.small(99)));
        port = camera.start(0).getPort();
        open.add(0, camera);
    }

    PtpIpCameraLink link() {
        return link(GUID);
    }

    PtpIpCameraLink link(UUID shoot) {
        PtpIpCameraLink link =
                new PtpIpCameraLink(new CameraAddress("127.0.0.1", port), shoot, SHORT);
        received = new Received(frames);
        link.control()
                .watch(
                        standing -> {
                            synchronized (standings) {
                                standings.add(standing);
                            }
                            received.changed();
                        });
        open.add(0, link.start(received));
        return link;
    }

    /** A camera that offers all, and a link to it that is up. */
    PtpIpCameraLink linked() throws IOException {
        cameraWith(Offers.ALL);
        PtpIpCameraLink link = link();
        received.awaitUp();
        return link;
    }

    /** The program dies and is started again: nothing is left of the link but its folder. */
    void endLink() throws Exception {
        open.remove(0).close();
    }

    void off() {
        camera.close();
        received.awaitDown();
    }

    private boolean startedAgain() {
        try {
            return camera.start(port).getPort() == port;
        } catch (IOException taken) {
            return false;
        }
    }

    void on() {
        // the link itself, which knocks there all the time, may have the port for a moment
        received.await("port " + port, this::startedAgain);
        received.awaitUp();
    }

    Path folder() {
        return frames.resolve("camera 127.0.0.1 port " + port);
    }

    List<OperationRequest> asked(Operation operation) {
        return camera.asked().stream().filter(r -> r.operation() == operation.code()).toList();
    }

    static void assertHolds(Path file, byte[] content) throws IOException {
        assertArrayEquals(content, Files.readAllBytes(file), file.toString());
    }

    /**
     * Nothing is left half: so many files, and none under a name that begins with a dot but the
     * note of what was on the card.
     */
    void assertOnly(int files) throws IOException {
        try (Stream<Path> all = Files.walk(frames)) {
            List<Path> there =
                    all.filter(Files::isRegularFile)
                            .filter(f -> !f.getFileName().toString().startsWith(".before-"))
                            .toList();
            assertEquals(files, there.size(), there.toString());
            assertTrue(
                    there.stream().noneMatch(f -> f.getFileName().toString().startsWith(".")),
                    there.toString());
        }
    }

    Standing standing() {
        synchronized (standings) {
            return standings.isEmpty()
                    ? new Standing(false, false, List.of())
                    : standings.get(standings.size() - 1);
        }
    }
}
