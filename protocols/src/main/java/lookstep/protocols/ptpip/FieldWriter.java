package lookstep.protocols.ptpip;

import java.io.ByteArrayOutputStream;
import java.util.Collection;

/** Writes fields one after another, least significant octet first (CIPA DC-005, 2.3). */
final class FieldWriter {
    private static final int MOST_UNITS = 254;

    private final ByteArrayOutputStream out = new ByteArrayOutputStream();

    FieldWriter u8(int value) {
        out.write(value);
        return this;
    }

    FieldWriter u16(int value) {
        return u8(value).u8(value >> 8);
    }

    FieldWriter u32(int value) {
        return u16(value).u16(value >> 16);
    }

    FieldWriter u64(long value) {
        return u32((int) value).u32((int) (value >> 32));
    }

    FieldWriter octets(byte[] octets) {
        out.write(octets, 0, octets.length);
        return this;
    }

    /** A dataset's string; what is longer than 254 units is cut, as the count has one octet. */
    FieldWriter string(String text) {
        if (text.isEmpty()) {
            return u8(0);
        }
        int units = Math.min(text.length(), MOST_UNITS);
        u8(units + 1);
        for (int i = 0; i < units; i++) {
            u16(text.charAt(i));
        }
        return u16(0);
    }

    /** The name in an init packet, without a count. */
    FieldWriter name(String text) {
        text.chars().forEach(this::u16);
        return u16(0);
    }

    FieldWriter u16Array(Collection<Integer> values) {
        u32(values.size());
        values.forEach(this::u16);
        return this;
    }

    FieldWriter u32Array(Collection<Integer> values) {
        u32(values.size());
        parameters(values);
        return this;
    }

    FieldWriter parameters(Collection<Integer> values) {
        values.forEach(this::u32);
        return this;
    }

    byte[] written() {
        return out.toByteArray();
    }

    /** What was written, behind the length and the type that every packet begins with. */
    byte[] asPacket(int type) {
        FieldWriter packet = new FieldWriter();
        packet.u32(Packet.HEADER_OCTETS + out.size()).u32(type);
        return packet.octets(out.toByteArray()).written();
    }
}
