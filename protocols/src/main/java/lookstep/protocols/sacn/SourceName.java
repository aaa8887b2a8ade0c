package lookstep.protocols.sacn;

import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;

/** What a sender calls itself: UTF-8 in 64 octets, ended and filled with NUL (clause 6.2.2). */
public final class SourceName {
    /** Most octets of UTF-8; one more holds the NUL. */
    public static final int MOST_OCTETS = 63;

    static final int FIELD_OCTETS = MOST_OCTETS + 1;

    private SourceName() {}

    /**
     * Gives the name back if it can be sent.
     *
     * @throws IllegalArgumentException if it is too long, or holds a NUL or half a character
     */
    public static String require(String name) {
        int octets;
        try {
            octets = StandardCharsets.UTF_8.newEncoder().encode(CharBuffer.wrap(name)).remaining();
        } catch (CharacterCodingException half) {
            throw new IllegalArgumentException("source name: holds half a character", half);
        }
        if (octets > MOST_OCTETS) {
            throw new IllegalArgumentException(
                    "source name '%s': %d octets of UTF-8, must be at most %d"
                            .formatted(name, octets, MOST_OCTETS));
        }
        if (name.indexOf('\0') >= 0) {
            throw new IllegalArgumentException("source name: must not hold a NUL");
        }
        return name;
    }

    static void put(ByteBuffer out, String name) {
        byte[] field = new byte[FIELD_OCTETS];
        byte[] octets = name.getBytes(StandardCharsets.UTF_8);
        System.arraycopy(octets, 0, field, 0, octets.length);
        out.put(field);
    }

    static String read(ByteBuffer in) throws BadPacketException {
        byte[] field = new byte[FIELD_OCTETS];
        in.get(field);
        int length = 0;
        while (length < FIELD_OCTETS && field[length] != 0) {
            length++;
        }
        if (length == FIELD_OCTETS) {
            throw new BadPacketException("source name: does not end with a NUL");
        }
        try {
            return StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(field, 0, length))
                    .toString();
        } catch (CharacterCodingException bad) {
            throw new BadPacketException("source name: is not UTF-8");
        }
    }
}
