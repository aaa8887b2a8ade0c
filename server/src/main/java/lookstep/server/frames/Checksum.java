package lookstep.server.frames;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.OptionalLong;
import java.util.zip.CRC32C;

/** Tells whether bytes under one name are still the same. Not a proof against intent. */
final class Checksum {
    private static final int PIECE_BYTES = 1 << 16;

    private Checksum() {}

    /**
     * CRC-32C over the first bytes of a file.
     *
     * @param file read only
     * @param sizeBytes how many bytes count
     * @return empty if the file is shorter by now or cannot be read
     */
    static OptionalLong of(Path file, long sizeBytes) {
        CRC32C crc = new CRC32C();
        ByteBuffer piece = ByteBuffer.allocateDirect(PIECE_BYTES);
        try (FileChannel channel = FileChannel.open(file, StandardOpenOption.READ)) {
            long left = sizeBytes;
            while (left > 0) {
                piece.clear().limit((int) Math.min(left, PIECE_BYTES));
                int n = channel.read(piece);
                if (n < 0) {
                    return OptionalLong.empty();
                }
                crc.update(piece.flip());
                left -= n;
            }
            return OptionalLong.of(crc.getValue());
        } catch (IOException unreadable) {
            return OptionalLong.empty();
        }
    }
}
