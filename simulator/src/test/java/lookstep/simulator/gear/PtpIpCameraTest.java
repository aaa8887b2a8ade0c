package lookstep.simulator.gear;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.EOFException;
import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.SocketTimeoutException;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import lookstep.protocols.ptpip.DeviceProperty;
import lookstep.protocols.ptpip.EventCode;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/**
 * The camera's end, spoken to in octets written by hand after CIPA DC-005, 2.3, and ISO 15740: no
 * codec of ours is on this side.
 */
@Timeout(60)
class PtpIpCameraTest {
    private static final String GUID = "00112233445566778899aabbccddeeff";

    /** Length 46, type 1, GUID, "Lookstep", version 1.0. */
    private static final String INIT =
            "2e000000 01000000" + GUID + "4c006f006f006b007300740065007000 0000 00000100";

    private final CountDownLatch released = new CountDownLatch(1);
    private final PtpIpCamera camera =
            new PtpIpCamera(
                    PtpIpCamera.Offers.ALL,
                    Clock.fixed(Instant.parse("2026-03-01T20:00:00Z"), ZoneOffset.UTC),
                    released::countDown);
    private final List<Wire> wires = new ArrayList<>();
    private InetSocketAddress address;

    /** One connection, in hex. */
    private static final class Wire implements AutoCloseable {
        private final Socket socket;

        Wire(InetSocketAddress to) throws IOException {
            socket = new Socket(to.getAddress(), to.getPort());
            socket.setSoTimeout(20_000);
        }

        void send(String hex) throws IOException {
            socket.getOutputStream().write(HexFormat.of().parseHex(hex.replace(" ", "")));
        }

        /** One packet, by the length that it begins with. */
        String receive() throws IOException {
            byte[] length = socket.getInputStream().readNBytes(4);
            if (length.length < 4) {
                throw new EOFException();
            }
            int octets = (length[0] & 0xFF) | (length[1] & 0xFF) << 8 | (length[2] & 0xFF) << 16;
            byte[] rest = socket.getInputStream().readNBytes(octets - 4);
            if (rest.length < octets - 4) {
                throw new EOFException("cut within a packet");
            }
            return HexFormat.of().formatHex(length) + HexFormat.of().formatHex(rest);
        }

        @Override
        public void close() throws IOException {
            socket.close();
        }
    }

    @BeforeEach
    void on() throws IOException {
        address = camera.start(0);
    }

    @AfterEach
    void off() throws IOException {
        for (Wire wire : wires) {
            wire.close();
        }
        camera.close();
    }

    private Wire wire() throws IOException {
        Wire wire = new Wire(address);
        wires.add(wire);
        return wire;
    }

    private static String hex(String text) {
        return text.replace(" ", "");
    }

    /** Both connections, session 1. */
    private Wire[] session() throws IOException {
        Wire command = wire();
        command.send(INIT);
        String ack = command.receive();
        assertEquals("02000000", ack.substring(8, 16));
        String connection = ack.substring(16, 24);
        Wire events = wire();
        events.send("0c000000 03000000" + connection);
        assertEquals(hex("08000000 04000000"), events.receive());
        // OpenSession, transaction 0, session 1: OK
        command.send("16000000 06000000 01000000 0210 00000000 01000000");
        assertEquals(hex("0e000000 07000000 0120 00000000"), command.receive());
        return new Wire[] {command, events};
    }

    @Test
    void aPictureIsToldOfAndFetched() throws Exception {
        Wire[] wires = session();
        byte[] content = {1, 2, 3, 4, 5};
        int handle = camera.put("A.RAW", content);
        String little = HexFormat.of().toHexDigits(Integer.reverseBytes(handle));
        assertEquals(hex("12000000 08000000 0240 ffffffff" + little), wires[1].receive());
        // GetObject, transaction 1: Start Data, End Data, OK with the count
        wires[0].send("16000000 06000000 01000000 0910 01000000" + little);
        assertEquals(hex("14000000 09000000 01000000 0500000000000000"), wires[0].receive());
        assertEquals(hex("11000000 0c000000 01000000 0102030405"), wires[0].receive());
        assertEquals(hex("12000000 07000000 0120 01000000 05000000"), wires[0].receive());
        // GetPartialObject, transaction 2, from 3, at most 9
        wires[0].send("1e000000 06000000 01000000 1b10 02000000" + little + "03000000 09000000");
        assertEquals(hex("14000000 09000000 02000000 0200000000000000"), wires[0].receive());
        assertEquals(hex("0e000000 0c000000 02000000 0405"), wires[0].receive());
        assertEquals(hex("12000000 07000000 0120 02000000 02000000"), wires[0].receive());
        // GetThumb, transaction 3: none
        wires[0].send("16000000 06000000 01000000 0a10 03000000" + little);
        assertEquals(hex("0e000000 07000000 1020 03000000"), wires[0].receive());
    }

    @Test
    void aProbeIsAnswered() throws Exception {
        Wire[] wires = session();
        wires[1].send("08000000 0d000000");
        assertEquals(hex("08000000 0e000000"), wires[1].receive());
        assertEquals(1, camera.probes());
    }

    @Test
    void aTransferIsCalledOff() throws Exception {
        Wire[] wires = session();
        camera.misbehave(new Fault.SlowWriter(10, 20_000_000));
        int handle = camera.put("A.RAW", new byte[100_000]);
        String little = HexFormat.of().toHexDigits(Integer.reverseBytes(handle));
        wires[0].send("16000000 06000000 01000000 0910 01000000" + little);
        assertEquals("09000000", wires[0].receive().substring(8, 16));
        // Cancel, transaction 1: some data, then TransactionCancelled
        wires[0].send("0c000000 0b000000 01000000");
        String packet = wires[0].receive();
        while (packet.startsWith("0a000000", 8)) {
            packet = wires[0].receive();
        }
        assertTrue(packet.startsWith(hex("07000000 1f20 01000000"), 8), packet);
    }

    @Test
    void oneComputerAtATime() throws Exception {
        session();
        Wire second = wire();
        second.send(INIT);
        assertEquals(hex("0c000000 05000000 02000000"), second.receive());
    }

    @Test
    void aCameraThatIsTaken() throws Exception {
        camera.misbehave(new Fault.CameraTaken());
        Wire wire = wire();
        wire.send(INIT);
        assertEquals(hex("0c000000 05000000 02000000"), wire.receive());
    }

    @Test
    void numbersOfTransactionsAreLookedAtAndASessionIsNeeded() throws Exception {
        Wire command = wire();
        command.send(INIT);
        command.receive();
        // GetStorageIDs without a session: SessionNotOpen
        command.send("12000000 06000000 01000000 0410 01000000");
        assertEquals(hex("0e000000 07000000 0320 01000000"), command.receive());
        command.send("16000000 06000000 01000000 0210 00000000 01000000");
        command.receive();
        // transaction 7 in place of 1: InvalidTransactionID
        command.send("12000000 06000000 01000000 0410 07000000");
        assertEquals(hex("0e000000 07000000 0420 07000000"), command.receive());
        // GetStorageIDs: one, 0x00010001
        command.send("12000000 06000000 01000000 0410 01000000");
        command.receive();
        assertEquals(hex("14000000 0c000000 01000000 01000000 01000100"), command.receive());
        assertEquals(hex("0e000000 07000000 0120 01000000"), command.receive());
        // an operation that is none: OperationNotSupported
        command.send("12000000 06000000 01000000 ff1f 02000000");
        assertEquals(hex("0e000000 07000000 0520 02000000"), command.receive());
    }

    private void setFNumber(Wire command, int transaction, String value) throws IOException {
        String number = HexFormat.of().toHexDigits(Integer.reverseBytes(transaction));
        command.send("16000000 06000000 02000000 1610" + number + "07500000");
        command.send("14000000 09000000" + number + "0200000000000000");
        command.send("0e000000 0c000000" + number + value);
    }

    @Test
    void aDialIsTurnedOrNot() throws Exception {
        Wire command = session()[0];
        // f/8 is 800, 0x0320
        setFNumber(command, 1, "2003");
        assertEquals(hex("0e000000 07000000 0120 01000000"), command.receive());
        assertEquals(800, camera.dial(DeviceProperty.F_NUMBER));
        // f/8.01: InvalidDevicePropValue
        setFNumber(command, 2, "2103");
        assertEquals(hex("0e000000 07000000 1c20 02000000"), command.receive());
        camera.misbehave(new Fault.SettingRefused(DeviceProperty.F_NUMBER));
        setFNumber(command, 3, "4c04");
        assertEquals(hex("0e000000 07000000 0f20 03000000"), command.receive());
        camera.misbehave(new Fault.SettingMissing(DeviceProperty.F_NUMBER));
        setFNumber(command, 4, "4c04");
        assertEquals(hex("0e000000 07000000 0a20 04000000"), command.receive());
        camera.mend();
        setFNumber(command, 5, "4c04");
        assertEquals(hex("0e000000 07000000 0120 05000000"), command.receive());
        assertEquals(1100, camera.dial(DeviceProperty.F_NUMBER));
    }

    @Test
    void aBusyCameraDoesNotRelease() throws Exception {
        Wire[] wires = session();
        camera.misbehave(new Fault.CameraBusy(1));
        wires[0].send("1a000000 06000000 01000000 0e10 01000000 00000000 00000000");
        assertEquals(hex("0e000000 07000000 1920 01000000"), wires[0].receive());
        assertEquals(1, released.getCount());
        wires[0].send("1a000000 06000000 01000000 0e10 02000000 00000000 00000000");
        assertEquals(hex("0e000000 07000000 0120 02000000"), wires[0].receive());
        assertTrue(released.await(30, TimeUnit.SECONDS));
        // CaptureComplete, of transaction 2
        assertEquals(hex("12000000 08000000 0d40 ffffffff 02000000"), wires[1].receive());
    }

    @Test
    void aFileBreaksOffWithinAPacket() throws Exception {
        Wire command = session()[0];
        int handle = camera.put("A.RAW", new byte[1000]);
        String little = HexFormat.of().toHexDigits(Integer.reverseBytes(handle));
        camera.misbehave(new Fault.HalfFile(0.5));
        command.send("16000000 06000000 01000000 0910 01000000" + little);
        command.receive();
        assertThrows(IOException.class, command::receive);
        // once
        Wire again = session()[0];
        again.send("16000000 06000000 01000000 0910 01000000" + little);
        again.receive();
        assertEquals(12 + 1000, again.receive().length() / 2);
    }

    @Test
    void asleepItAnswersNothingAndAwakeItKnowsNobody() throws Exception {
        Wire[] wires = session();
        camera.misbehave(new Fault.CameraSilent());
        wires[1].send("08000000 0d000000");
        camera.tell(EventCode.STORE_FULL, 1);
        wires[1].socket.setSoTimeout(200);
        assertThrows(SocketTimeoutException.class, wires[1]::receive);
        camera.mend();
        wires[1].socket.setSoTimeout(20_000);
        assertThrows(IOException.class, wires[1]::receive);
    }

    @Test
    void theExifsOwnSmallPictureIsTheSmallPicture() {
        // JPEG, APP1 of 62 octets: Exif, big-endian, first IFD empty, second with a thumb of 4
        String jpeg =
                "ffd8 ffe1 0040 457869660000"
                        + "4d4d 002a 00000008"
                        + "0000 0000000e"
                        + "0002"
                        + "0201 0004 00000001 0000002e"
                        + "0202 0004 00000001 00000004"
                        + "00000000"
                        + "0000"
                        + "ffd8ffd9"
                        + "00000000 0000"
                        + "ffd9";
        assertArrayEquals(
                new byte[] {(byte) 0xFF, (byte) 0xD8, (byte) 0xFF, (byte) 0xD9},
                ThumbFile.inExif(HexFormat.of().parseHex(hex(jpeg))).orElseThrow());
    }

    @Test
    void senselessFiguresAreRefused() {
        assertThrows(IllegalArgumentException.class, () -> new Fault.CameraBusy(0));
        assertThrows(IllegalArgumentException.class, () -> camera.misbehave(new Fault.Garbled()));
    }
}
