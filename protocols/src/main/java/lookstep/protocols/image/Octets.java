package lookstep.protocols.image;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.SeekableByteChannel;
import java.util.Arrays;

/** Octets of a file by position, through one small window; or of an array, which is its own. */
final class Octets {
    private static final int WINDOW = 64 * 1024;

    private final SeekableByteChannel channel;
    private final byte[] window;
    private final long size;
    private long from;
    private int filled;

    private Octets(SeekableByteChannel channel, byte[] window, long size, int filled) {
        this.channel = channel;
        this.window = window;
        this.size = size;
        this.filled = filled;
    }

    static Octets of(byte[] bytes) {
        return new Octets(null, bytes, bytes.length, bytes.length);
    }

    /** The size is taken once: what a writer adds meanwhile is not looked at. */
    static Octets of(SeekableByteChannel channel) throws IOException {
        return new Octets(channel, new byte[WINDOW], channel.size(), 0);
    }

    long size() {
        return size;
    }

    /** The octet at a position, 0..255, or -1 if there is none. */
    int at(long position) throws IOException {
        if (position < 0 || position >= size) {
            return -1;
        }
        if (position < from || position >= from + filled) {
            if (!fill(position)) {
                return -1;
            }
        }
        return window[(int) (position - from)] & 0xFF;
    }

    /** Two octets, most significant first, or -1 if they are not both there. */
    int u16(long position) throws IOException {
        int high = at(position);
        int low = at(position + 1);
        return high < 0 || low < 0 ? -1 : high << 8 | low;
    }

    /** First position at or after {@code position} that holds FF, or -1. */
    long nextFF(long position) throws IOException {
        long p = position;
        while (at(p) >= 0) {
            int end = filled;
            for (int i = (int) (p - from); i < end; i++) {
                if (window[i] == (byte) 0xFF) {
                    return from + i;
                }
            }
            p = from + end;
        }
        return -1;
    }

    /** Up to {@code length} octets from a position: fewer if the file ends before. */
    byte[] copy(long position, int length) throws IOException {
        int there = (int) Math.max(0, Math.min(length, size - position));
        byte[] copy = new byte[there];
        for (int i = 0; i < there; i++) {
            int octet = at(position + i);
            if (octet < 0) {
                return Arrays.copyOf(copy, i);
            }
            copy[i] = (byte) octet;
        }
        return copy;
    }

    private boolean fill(long position) throws IOException {
        if (channel == null) {
            return false;
        }
        channel.position(position);
        ByteBuffer into = ByteBuffer.wrap(window);
        from = position;
        filled = 0;
        int most = (int) Math.min(window.length, size - position);
        into.limit(most);
        while (into.hasRemaining()) {
            if (channel.read(into) < 0) {
                // cut shorter since its size was taken
                break;
            }
        }
        filled = into.position();
        return filled > 0;
    }
}
