package lookstep.protocols.image;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.SeekableByteChannel;
import java.util.Arrays;

/**
 * Octets of a file, or of a part of it, by position, through one small window; or of an array,
 * which is its own.
 */
final class Octets {
    private static final int WINDOW = 64 * 1024;

    /** The octets that are in memory; shared by a file and its parts. */
    private static final class Window {
        private final SeekableByteChannel channel;
        private final byte[] octets;
        private final long fileSize;
        private long from;
        private int filled;

        Window(SeekableByteChannel channel, byte[] octets, long fileSize, int filled) {
            this.channel = channel;
            this.octets = octets;
            this.fileSize = fileSize;
            this.filled = filled;
        }

        boolean holds(long place) throws IOException {
            return (place >= from && place < from + filled) || (channel != null && fill(place));
        }

        private boolean fill(long place) throws IOException {
            channel.position(place);
            ByteBuffer into = ByteBuffer.wrap(octets);
            from = place;
            filled = 0;
            into.limit((int) Math.min(octets.length, fileSize - place));
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

    private final Window window;
    private final long origin;
    private final long size;

    private Octets(Window window, long origin, long size) {
        this.window = window;
        this.origin = origin;
        this.size = size;
    }

    static Octets of(byte[] bytes) {
        return new Octets(new Window(null, bytes, bytes.length, bytes.length), 0, bytes.length);
    }

    /** The size is taken once: what a writer adds meanwhile is not looked at. */
    static Octets of(SeekableByteChannel channel) throws IOException {
        long size = channel.size();
        byte[] room = new byte[(int) Math.min(WINDOW, Math.max(size, 1))];
        return new Octets(new Window(channel, room, size, 0), 0, size);
    }

    /** Those from a position on, up to {@code length}: fewer if these end before. */
    Octets part(long position, long length) {
        long start = Math.max(0, Math.min(position, size));
        return new Octets(window, origin + start, Math.max(0, Math.min(length, size - start)));
    }

    /** Where in the file these begin. */
    long start() {
        return origin;
    }

    long size() {
        return size;
    }

    /** The octet at a position, 0..255, or -1 if there is none. */
    int at(long position) throws IOException {
        if (position < 0 || position >= size || !window.holds(origin + position)) {
            return -1;
        }
        return window.octets[(int) (origin + position - window.from)] & 0xFF;
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
            int end = (int) Math.min(window.filled, origin + size - window.from);
            for (int i = (int) (origin + p - window.from); i < end; i++) {
                if (window.octets[i] == (byte) 0xFF) {
                    return window.from + i - origin;
                }
            }
            p = window.from + end - origin;
        }
        return -1;
    }

    /** Whether these octets stand at a position. */
    boolean holds(long position, byte[] wanted) throws IOException {
        for (int i = 0; i < wanted.length; i++) {
            if (at(position + i) != (wanted[i] & 0xFF)) {
                return false;
            }
        }
        return true;
    }

    /** Up to {@code length} octets from a position: fewer if the file ends before. */
    byte[] copy(long position, int length) throws IOException {
        int there = (int) Math.max(0, Math.min(length, size - position));
        byte[] copy = new byte[there];
        int done = 0;
        while (done < there && at(position + done) >= 0) {
            int from = (int) (origin + position + done - window.from);
            int n = Math.min(there - done, window.filled - from);
            System.arraycopy(window.octets, from, copy, done, n);
            done += n;
        }
        return done == there ? copy : Arrays.copyOf(copy, done);
    }
}
