package lookstep.server.ftp;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.file.Path;
import java.util.Optional;
import lookstep.server.disk.Disk;

/** A file that is coming in, under a hidden name. One thread. */
final class Upload extends OutputStream {
    private final String name;
    private final Path part;
    private final Disk.Growing file;
    private long bytes;
    private Optional<IOException> trouble = Optional.empty();

    /**
     * A file that is open for writing.
     *
     * @param name its harmless name
     * @param part where it lies for now
     * @param file to be written from {@code bytes} on
     * @param bytes that are there already
     */
    Upload(String name, Path part, Disk.Growing file, long bytes) {
        this.name = name;
        this.part = part;
        this.file = file;
        this.bytes = bytes;
    }

    String name() {
        return name;
    }

    Path part() {
        return part;
    }

    long bytes() {
        return bytes;
    }

    /** What the disk did not do: it tells a full disk from a connection that broke. */
    Optional<IOException> trouble() {
        return trouble;
    }

    @Override
    public void write(int octet) throws IOException {
        write(new byte[] {(byte) octet}, 0, 1);
    }

    @Override
    public void write(byte[] octets, int from, int count) throws IOException {
        try {
            file.write(ByteBuffer.wrap(octets, from, count));
            bytes += count;
        } catch (IOException e) {
            trouble = Optional.of(e);
            throw e;
        }
    }

    /** Returns when the disk has it. */
    void sync() throws IOException {
        try {
            file.sync();
        } catch (IOException e) {
            trouble = Optional.of(e);
            throw e;
        }
    }

    @Override
    public void close() throws IOException {
        file.close();
    }
}
