package lookstep.protocols.ptpip;

import com.code_intelligence.jazzer.junit.FuzzTest;
import java.util.Optional;

/**
 * Any octets at all: packets and datasets, or the package's own fault, and nothing else. The seeds
 * in {@code FuzzPtpIpInputs} are the octets of {@link Golden}; an ordinary test run feeds only
 * them.
 */
class FuzzPtpIp {
    @FuzzTest(maxDuration = "20s")
    void readersTakeAnything(byte[] octets) {
        if (octets.length == 0) {
            return;
        }
        packets(octets);
        datasets(octets);
    }

    private static void packets(byte[] octets) {
        int step = 1 + (octets[0] & 0x3F);
        PacketReader reader = new PacketReader();
        try {
            for (int at = 0; at < octets.length; at += step) {
                reader.feed(octets, at, Math.min(step, octets.length - at));
                for (Optional<Packet> next = reader.next();
                        next.isPresent();
                        next = reader.next()) {
                    again(next.get());
                }
            }
        } catch (BadBytesException expected) {
            // a stream that is none
        }
    }

    /** What was read is written, and read again, as the same. */
    private static void again(Packet packet) throws BadBytesException {
        byte[] octets = packet.encode();
        PacketReader reader = new PacketReader();
        reader.feed(octets, 0, octets.length);
        Packet same = reader.next().orElseThrow();
        boolean inPieces = octets.length > PacketReader.MOST_OCTETS;
        if (!inPieces && !same.equals(packet)) {
            throw new AssertionError(packet + " became " + same);
        }
    }

    private static void datasets(byte[] octets) {
        read(() -> ObjectInfo.read(octets).encode());
        read(() -> DeviceInfo.read(octets).encode());
        read(() -> StorageInfo.read(octets).encode());
        read(() -> Numbers.read(octets).encode());
        read(() -> DevicePropDesc.read(octets).encode());
    }

    private interface Reading {
        byte[] read() throws BadBytesException;
    }

    private static void read(Reading reading) {
        try {
            reading.read();
        } catch (BadBytesException expected) {
            // a dataset that is none
        }
    }
}
