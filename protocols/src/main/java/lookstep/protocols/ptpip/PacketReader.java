package lookstep.protocols.ptpip;

import java.util.Arrays;
import java.util.Optional;

/**
 * Finds the packets in a stream of bytes that comes cut anywhere. Holds no more than one packet and
 * what was fed last: a long packet of data is given in pieces, which changes nothing, since data is
 * what all its packets hold together.
 */
public final class PacketReader {
    /** The longest packet that is given whole; one that is not data may not be longer. */
    public static final int MOST_OCTETS = 1 << 16;

    private static final int WITH_TRANSACTION = Packet.HEADER_OCTETS + 4;
    private static final long OUTSIDE = -1;

    private byte[] buffer = new byte[1 << 12];
    private int from;
    private int to;
    private long dataLeft = OUTSIDE;
    private int transaction;
    private boolean lastOfData;
    private String broken;

    /** Takes the next bytes of the stream. */
    public void feed(byte[] bytes, int offset, int length) {
        if (buffer.length - to < length) {
            byte[] wider =
                    to - from + length > buffer.length
                            ? new byte[Math.max(to - from + length, 2 * buffer.length)]
                            : buffer;
            System.arraycopy(buffer, from, wider, 0, to - from);
            to -= from;
            from = 0;
            buffer = wider;
        }
        System.arraycopy(bytes, offset, buffer, to, length);
        to += length;
    }

    /**
     * The next packet; empty until more has been fed.
     *
     * @throws BadBytesException if the stream cannot be read on, now and from then on: where the
     *     next packet begins is not known any more
     */
    public Optional<Packet> next() throws BadBytesException {
        if (broken != null) {
            throw new BadBytesException(broken);
        }
        try {
            return dataLeft == OUTSIDE ? packet() : piece();
        } catch (BadBytesException e) {
            broken = e.getMessage();
            throw e;
        }
    }

    private Optional<Packet> packet() throws BadBytesException {
        if (to - from < Packet.HEADER_OCTETS) {
            return Optional.empty();
        }
        long length = Integer.toUnsignedLong(u32(from));
        int type = u32(from + 4);
        if (length < Packet.HEADER_OCTETS) {
            throw new BadBytesException("a packet of %d octets: at least 8".formatted(length));
        }
        if (length > MOST_OCTETS) {
            return longData(type, length);
        }
        if (to - from < length) {
            return Optional.empty();
        }
        byte[] payload = copy(from + Packet.HEADER_OCTETS, from + (int) length);
        from += (int) length;
        return Optional.of(Packet.read(type, payload));
    }

    private Optional<Packet> longData(int type, long length) throws BadBytesException {
        if (type != Data.TYPE && type != EndData.TYPE) {
            throw new BadBytesException(
                    "a packet of type %s with %d octets: at most %d"
                            .formatted(Integer.toUnsignedString(type), length, MOST_OCTETS));
        }
        if (to - from < WITH_TRANSACTION) {
            return Optional.empty();
        }
        transaction = u32(from + Packet.HEADER_OCTETS);
        lastOfData = type == EndData.TYPE;
        dataLeft = length - WITH_TRANSACTION;
        from += WITH_TRANSACTION;
        return piece();
    }

    private Optional<Packet> piece() {
        int octets = (int) Math.min(dataLeft, MOST_OCTETS);
        if (to - from < octets) {
            return Optional.empty();
        }
        byte[] piece = copy(from, from + octets);
        from += octets;
        dataLeft -= octets;
        if (dataLeft > 0) {
            return Optional.of(new Data(transaction, piece));
        }
        dataLeft = OUTSIDE;
        return Optional.of(
                lastOfData ? new EndData(transaction, piece) : new Data(transaction, piece));
    }

    private byte[] copy(int start, int end) {
        return Arrays.copyOfRange(buffer, start, end);
    }

    private int u32(int at) {
        return (buffer[at] & 0xFF)
                | (buffer[at + 1] & 0xFF) << 8
                | (buffer[at + 2] & 0xFF) << 16
                | (buffer[at + 3] & 0xFF) << 24;
    }
}
