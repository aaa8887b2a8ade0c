package lookstep.server.disk;

import java.io.Closeable;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/** Where files are written: a real disk, or in tests one that fills up or goes away. */
public interface Disk {
    /** The machine's own disks. */
    Disk REAL =
            new Disk() {
                @Override
                public Growing create(Path file) throws IOException {
                    return new OnDisk(
                            FileChannel.open(
                                    file, StandardOpenOption.WRITE, StandardOpenOption.CREATE_NEW));
                }

                @Override
                public Growing goOn(Path file, long offsetBytes) throws IOException {
                    FileChannel channel = FileChannel.open(file, StandardOpenOption.WRITE);
                    channel.position(offsetBytes);
                    return new OnDisk(channel);
                }
            };

    /**
     * A new file.
     *
     * @throws java.nio.file.FileAlreadyExistsException if there is one
     * @throws IOException if it cannot be made
     */
    Growing create(Path file) throws IOException;

    /**
     * A file that is there, to be written from an offset on.
     *
     * @param offsetBytes 0 up to its length
     * @throws IOException if it cannot be opened
     */
    Growing goOn(Path file, long offsetBytes) throws IOException;

    /** A file that is being written. */
    interface Growing extends Closeable {
        /**
         * Writes all that remains in the buffer.
         *
         * @throws IOException if the disk does not take it; see {@link DiskFull}
         */
        void write(ByteBuffer bytes) throws IOException;

        /**
         * Cuts the file off after what was written, and returns when the disk says that it has it.
         */
        void sync() throws IOException;
    }

    /** A file on a real disk. */
    record OnDisk(FileChannel channel) implements Growing {
        @Override
        public void write(ByteBuffer bytes) throws IOException {
            while (bytes.hasRemaining()) {
                channel.write(bytes);
            }
        }

        @Override
        public void sync() throws IOException {
            channel.truncate(channel.position());
            channel.force(true);
        }

        @Override
        public void close() throws IOException {
            channel.close();
        }
    }
}
