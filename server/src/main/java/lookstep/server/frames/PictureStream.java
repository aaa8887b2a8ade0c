package lookstep.server.frames;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.util.List;
import javax.imageio.stream.ImageInputStreamImpl;

/** A part of a file as the JDK's decoders want it. Does not close the file. */
final class PictureStream extends ImageInputStreamImpl {
    private final FileChannel file;
    private final long start;
    private final long length;
    private final List<Long> hidden;

    /**
     * @param hidden positions in the file of colour profiles that are not to be seen; their first
     *     octet reads as 0, which makes them an unknown segment
     */
    PictureStream(FileChannel file, long start, long length, List<Long> hidden) {
        this.file = file;
        this.hidden = List.copyOf(hidden);
        this.start = start;
        this.length = length;
    }

    @Override
    public int read() throws IOException {
        byte[] one = new byte[1];
        return read(one, 0, 1) < 0 ? -1 : one[0] & 0xFF;
    }

    @Override
    public int read(byte[] into, int offset, int most) throws IOException {
        checkClosed();
        bitOffset = 0;
        if (most == 0) {
            return 0;
        }
        long left = length - streamPos;
        if (left <= 0) {
            return -1;
        }
        ByteBuffer room = ByteBuffer.wrap(into, offset, (int) Math.min(most, left));
        long from = start + streamPos;
        int n = file.read(room, from);
        if (n > 0) {
            for (long place : hidden) {
                if (place >= from && place < from + n) {
                    into[offset + (int) (place - from)] = 0;
                }
            }
            streamPos += n;
        }
        return n;
    }

    @Override
    public long length() {
        return length;
    }
}
