package lookstep.server.keeping;

import java.io.Closeable;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** Reads a file in pieces and hashes it on the way, SHA-256 of FIPS 180-4. One thread. */
final class Hashing implements Closeable {
    private final FileChannel channel;
    private final MessageDigest digest;
    private long bytes;

    private Hashing(FileChannel channel) {
        this.channel = channel;
        try {
            digest = MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException never) {
            // Every Java must have it, says the page of MessageDigest.
            throw new IllegalStateException(never);
        }
    }

    /**
     * Opens it anew.
     *
     * @throws IOException if it cannot be opened
     */
    static Hashing of(Path file) throws IOException {
        return new Hashing(FileChannel.open(file, StandardOpenOption.READ));
    }

    /**
     * Reads up to a full buffer and leaves it flipped, to be read again.
     *
     * @return false at the end, when nothing came any more
     */
    boolean next(ByteBuffer piece) throws IOException {
        piece.clear();
        int came;
        do {
            came = channel.read(piece);
        } while (came >= 0 && piece.hasRemaining());
        piece.flip();
        digest.update(piece.duplicate());
        bytes += piece.remaining();
        return piece.hasRemaining();
    }

    /** How many bytes have been read. */
    long bytes() {
        return bytes;
    }

    /** Of all that was read; once. */
    String hex() {
        return HexFormat.of().formatHex(digest.digest());
    }

    @Override
    public void close() throws IOException {
        channel.close();
    }
}
