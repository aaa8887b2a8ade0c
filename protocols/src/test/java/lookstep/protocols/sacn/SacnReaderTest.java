package lookstep.protocols.sacn;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import lookstep.protocols.dmx.DmxPacket;
import org.junit.jupiter.api.Test;

/** Whatever comes is read as what it says, or refused in words; never guessed at. */
class SacnReaderTest {
    private static final byte[] FULL =
            new SacnData(
                            Golden.CID,
                            "full",
                            100,
                            0,
                            0,
                            SacnOptions.NONE,
                            1,
                            SacnSlots.of(DmxPacket.BLACK))
                    .encode();

    private static final List<byte[]> PACKETS =
            List.of(Golden.DATA, FULL, Golden.SYNC, Golden.DISCOVERY);

    /** Each bit by itself, and all of them. */
    private static final int[] FLIPPED = {1, 2, 4, 8, 16, 32, 64, 128, 255};

    private static byte[] encoded(SacnReading reading) {
        if (reading instanceof SacnData data) {
            return data.encode();
        }
        return reading instanceof SacnSync sync
                ? sync.encode()
                : ((SacnDiscovery) reading).encode();
    }

    /** The octets with those set to 0 that a reader does not look at. */
    private static byte[] lookedAt(byte[] octets, SacnReading reading) {
        byte[] kept = octets.clone();
        if (reading instanceof SacnSync) {
            Arrays.fill(kept, 47, 49, (byte) 0);
            return kept;
        }
        int end = 44;
        while (kept[end] != 0) {
            end++;
        }
        Arrays.fill(kept, end, 108, (byte) 0);
        if (reading instanceof SacnData) {
            kept[112] &= (byte) 0xE0;
        } else {
            Arrays.fill(kept, 108, 112, (byte) 0);
        }
        return kept;
    }

    private static void assertReadAsItIs(byte[] octets, String which) {
        SacnReading reading = SacnReader.read(octets);
        if (reading instanceof SacnFault fault) {
            assertFalse(fault.what().isBlank(), which);
        } else {
            assertArrayEquals(lookedAt(octets, reading), encoded(reading), which);
        }
    }

    @Test
    void cutAnywhereItIsRefused() {
        for (byte[] packet : PACKETS) {
            for (int cut = 0; cut < packet.length; cut++) {
                assertInstanceOf(
                        SacnFault.class,
                        SacnReader.read(Arrays.copyOf(packet, cut)),
                        packet.length + " octets cut at " + cut);
            }
        }
    }

    @Test
    void withMoreOctetsThanItSaysItIsRefused() {
        for (byte[] packet : PACKETS) {
            for (int more = 1; more < 20; more++) {
                assertInstanceOf(
                        SacnFault.class,
                        SacnReader.read(Arrays.copyOf(packet, packet.length + more)));
            }
        }
    }

    /** Cut, but with lengths that agree with the cut: each layer must look for itself. */
    @Test
    void cutWithLengthsThatAgreeItIsReadAsItIs() {
        for (byte[] packet : PACKETS) {
            for (int cut = 38; cut < packet.length; cut++) {
                byte[] octets = Arrays.copyOf(packet, cut);
                for (int layer : new int[] {16, 38, packet == Golden.DISCOVERY ? 112 : 115}) {
                    if (layer + 2 <= cut) {
                        octets[layer] = (byte) (0x70 | (cut - layer) >> 8);
                        octets[layer + 1] = (byte) (cut - layer);
                    }
                }
                assertReadAsItIs(octets, packet.length + " octets cut at " + cut);
            }
        }
    }

    @Test
    void anyOtherOctetInTheStructureIsRefusedAndElsewhereItIsReadAsItIs() {
        for (byte[] packet : PACKETS) {
            List<Integer> structure = new ArrayList<>();
            IntStream.range(0, 22).forEach(structure::add);
            IntStream.range(38, 44).forEach(structure::add);
            if (packet == Golden.DISCOVERY) {
                IntStream.range(112, 118).forEach(structure::add);
            } else if (packet != Golden.SYNC) {
                IntStream.range(115, 125).forEach(structure::add);
            }
            int read = 0;
            for (int at = 0; at < packet.length; at++) {
                for (int flipped : FLIPPED) {
                    byte[] octets = packet.clone();
                    octets[at] ^= (byte) flipped;
                    String which = "octet " + at + " is " + octets[at];
                    if (structure.contains(at)) {
                        assertInstanceOf(SacnFault.class, SacnReader.read(octets), which);
                    } else {
                        assertReadAsItIs(octets, which);
                        read += SacnReader.read(octets) instanceof SacnFault ? 0 : 1;
                    }
                }
            }
            // the CID alone has 16 octets that may be anything
            assertTrue(read > 16 * FLIPPED.length, "read " + read);
        }
    }

    @Test
    void anythingAtAllIsReadAsItIs() {
        Random random = new Random(31);
        for (int round = 0; round < 50_000; round++) {
            byte[] octets;
            if (round % 2 == 0) {
                octets = new byte[random.nextInt(700)];
                random.nextBytes(octets);
            } else {
                byte[] packet = PACKETS.get(random.nextInt(PACKETS.size()));
                octets = Arrays.copyOf(packet, packet.length + random.nextInt(3) / 2);
                for (int i = random.nextInt(5); i >= 0; i--) {
                    octets[random.nextInt(octets.length)] = (byte) random.nextInt(256);
                }
            }
            assertReadAsItIs(octets, "round " + round);
        }
    }
}
