package lookstep.protocols.ptpip;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Reads fields one after another, least significant octet first (CIPA DC-005, 2.3). */
final class FieldReader {
    private final byte[] octets;
    private final String what;
    private int at;

    /**
     * Begins at the first octet.
     *
     * @param what the octets are, for messages
     */
    FieldReader(byte[] octets, String what) {
        this.octets = octets;
        this.what = what;
    }

    int remaining() {
        return octets.length - at;
    }

    int u8() throws BadBytesException {
        need(1);
        return octets[at++] & 0xFF;
    }

    int u16() throws BadBytesException {
        need(2);
        return u8() | u8() << 8;
    }

    /** All 32 bits. */
    int u32() throws BadBytesException {
        need(4);
        return u16() | u16() << 16;
    }

    /** All 64 bits. */
    long u64() throws BadBytesException {
        need(8);
        return Integer.toUnsignedLong(u32()) | Integer.toUnsignedLong(u32()) << 32;
    }

    byte[] octets(int count) throws BadBytesException {
        need(count);
        at += count;
        return Arrays.copyOfRange(octets, at - count, at);
    }

    byte[] rest() {
        int from = at;
        at = octets.length;
        return Arrays.copyOfRange(octets, from, at);
    }

    /**
     * A dataset's string: a count of 16-bit units with the final NUL, then the units; count 0 for
     * an empty one. The units are taken as they are, whatever they say.
     */
    String string() throws BadBytesException {
        int units = u8();
        need(2 * units);
        StringBuilder text = new StringBuilder(units);
        for (int i = 0; i < units; i++) {
            text.append((char) u16());
        }
        if (units > 0 && text.charAt(units - 1) == 0) {
            text.setLength(units - 1);
        }
        return text.toString();
    }

    /** The name in an init packet: units up to a NUL, without a count. */
    String name() throws BadBytesException {
        StringBuilder text = new StringBuilder();
        for (int unit = u16(); unit != 0; unit = u16()) {
            text.append((char) unit);
        }
        return text.toString();
    }

    List<Integer> u16Array() throws BadBytesException {
        int count = count(2);
        List<Integer> values = new ArrayList<>(count);
        for (int i = 0; i < count; i++) {
            values.add(u16());
        }
        return values;
    }

    List<Integer> u32Array() throws BadBytesException {
        int count = count(4);
        List<Integer> values = new ArrayList<>(count);
        for (int i = 0; i < count; i++) {
            values.add(u32());
        }
        return values;
    }

    /** Up to {@code most} parameters of 32 bits; more of them are passed over. */
    List<Integer> parameters(int most) throws BadBytesException {
        List<Integer> values = new ArrayList<>(most);
        while (values.size() < most && remaining() > 0) {
            values.add(u32());
        }
        return values;
    }

    /** A count of elements that are all there: a claim alone takes no memory. */
    private int count(int octetsEach) throws BadBytesException {
        long count = Integer.toUnsignedLong(u32());
        if (count * octetsEach > remaining()) {
            throw new BadBytesException(
                    "%s: a list of %d elements, but only %d octets follow"
                            .formatted(what, count, remaining()));
        }
        return (int) count;
    }

    private void need(int count) throws BadBytesException {
        if (remaining() < count) {
            throw new BadBytesException(
                    "%s: ends at octet %d, within a field".formatted(what, octets.length));
        }
    }
}
