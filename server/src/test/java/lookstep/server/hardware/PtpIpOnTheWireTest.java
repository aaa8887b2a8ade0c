package lookstep.server.hardware;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import lookstep.server.gear.WayIn;
import lookstep.server.plan.CameraSettings;
import lookstep.server.ptpip.PtpIpCameraLink;
import lookstep.simulator.gear.PtpIpCamera;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * What the link really sends to a camera through its sockets, as an independent program reads it:
 * tshark's dissector of PTP/IP. It knows types, codes, numbers of transactions and the session, not
 * the other parameters; their octets are in the tests of the codecs.
 */
@Timeout(120)
class PtpIpOnTheWireTest {
    private static final UUID GUID = UUID.fromString("00112233-4455-6677-8899-aabbccddeeff");

    @TempDir Path folder;

    /** Hands everything on, both ways, and keeps what goes to the camera, by connection. */
    private static final class Tap implements AutoCloseable {
        private final ServerSocket server;
        private final InetSocketAddress camera;
        private final List<ByteArrayOutputStream> toCamera = new ArrayList<>();

        Tap(InetSocketAddress camera) throws IOException {
            this.camera = camera;
            server = new ServerSocket(0, 5, InetAddress.getLoopbackAddress());
            begin(this::accept);
        }

        private static void begin(Runnable work) {
            Thread thread = new Thread(work, "tap");
            thread.setDaemon(true);
            thread.start();
        }

        private void accept() {
            try {
                while (true) {
                    Socket near = server.accept();
                    Socket far = new Socket(camera.getAddress(), camera.getPort());
                    ByteArrayOutputStream kept = new ByteArrayOutputStream();
                    synchronized (this) {
                        toCamera.add(kept);
                    }
                    begin(() -> hand(near, far, kept));
                    begin(() -> hand(far, near, new ByteArrayOutputStream()));
                }
            } catch (IOException over) {
                // the test is over
            }
        }

        private void hand(Socket from, Socket to, ByteArrayOutputStream kept) {
            byte[] buffer = new byte[1 << 14];
            try (from;
                    to) {
                InputStream in = from.getInputStream();
                OutputStream out = to.getOutputStream();
                for (int count = in.read(buffer); count > 0; count = in.read(buffer)) {
                    synchronized (this) {
                        kept.write(buffer, 0, count);
                    }
                    out.write(buffer, 0, count);
                }
            } catch (IOException over) {
                // one end has closed
            }
        }

        synchronized List<byte[]> sent() {
            return toCamera.stream().map(ByteArrayOutputStream::toByteArray).toList();
        }

        @Override
        public void close() throws IOException {
            server.close();
        }
    }

    private static final class Arrivals implements WayIn.Incoming {
        private final Path folder;
        private final CountDownLatch up = new CountDownLatch(1);
        private final CountDownLatch whole = new CountDownLatch(1);

        Arrivals(Path folder) {
            this.folder = folder;
        }

        @Override
        public Path folder() {
            return folder;
        }

        @Override
        public void whole(Path file) {
            whole.countDown();
        }

        @Override
        public void early(Path file, byte[] jpeg) {}

        @Override
        public void notComing(Path file) {}

        @Override
        public void tell(boolean isUp, String says) {
            if (isUp) {
                up.countDown();
            }
        }
    }

    private static void await(CountDownLatch latch) throws InterruptedException {
        if (!latch.await(30, TimeUnit.SECONDS)) {
            throw new AssertionError("waited in vain");
        }
    }

    @Test
    void anotherProgramReadsWhatWasMeant() throws Exception {
        Arrivals arrivals = new Arrivals(folder.resolve("frames"));
        CountDownLatch set = new CountDownLatch(1);
        List<byte[]> sent;
        try (PtpIpCamera camera =
                        new PtpIpCamera(PtpIpCamera.Offers.ALL, Clock.systemUTC(), () -> {});
                Tap tap = new Tap(camera.start(0))) {
            PtpIpCameraLink link =
                    PtpIpCameraLink.parse("127.0.0.1:" + tap.server.getLocalPort(), GUID);
            link.control()
                    .watch(
                            standing -> {
                                if (standing.byHand().size() == 1) {
                                    set.countDown();
                                }
                            });
            AutoCloseable running = link.start(arrivals);
            try {
                await(arrivals.up);
                camera.put("A.RAW", new byte[3000]);
                await(arrivals.whole);
                link.control().want(new CameraSettings(8, 1.0 / 125, 400, 5600));
                await(set);
            } finally {
                running.close();
            }
            sent = tap.sent();
        }
        assertEquals(2, sent.size(), "connections");

        List<String> commands = PtpIpCapture.read(PtpIpCapture.packets(sent.get(0)), folder);
        String guid = "00112233445566778899aabbccddeeff";
        assertEquals(
                List.of(
                        "46|0x00000001|"
                                + guid
                                + "|Lookstep|1.0||||||||Init Command Request GUID: "
                                + guid
                                + " Name: Lookstep",
                        operation("18", "0x1001", 0, "", "GetDeviceInfo"),
                        operation("22", "0x1002", 0, "0x00000001", "OpenSession"),
                        operation("30", "0x1007", 1, "", ""),
                        operation("22", "0x1008", 2, "", ""),
                        operation("22", "0x100a", 3, "", ""),
                        operation("30", "0x101b", 4, "", ""),
                        // the f-number: what it can be, set to f/8, as it is now
                        operation("22", "0x1014", 5, "", ""),
                        operation("22", "0x1016", 6, "", "")
                                .replace("0x00000001|0x1016", "0x00000002|0x1016"),
                        "20|0x00000009|||||||0x00000006|2|||Start Data Packet  Transaction ID: 6",
                        "14|0x0000000c|||||||0x00000006||||End Data Packet  Transaction ID: 6",
                        operation("22", "0x1014", 7, "", ""),
                        // time and ISO stand as they are wanted
                        operation("22", "0x1014", 8, "", ""),
                        operation("22", "0x1014", 9, "", ""),
                        operation("18", "0x1003", 10, "", "CloseSession")),
                commands);
        assertEquals(
                "12|0x00000003||||1|||||||Init Event Request Connection #:1",
                PtpIpCapture.read(PtpIpCapture.packets(sent.get(1)), folder).get(0));
    }

    /** As tshark writes a request without data from the computer. */
    private static String operation(
            String length, String code, int transaction, String session, String name) {
        String words = name.isEmpty() ? "Operation Request Packet  " : name + " ";
        return "%s|0x00000006|||||0x00000001|%s|0x%08x||%s||%sTransaction ID: %d"
                .formatted(length, code, transaction, session, words, transaction);
    }
}
