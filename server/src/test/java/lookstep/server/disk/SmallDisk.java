package lookstep.server.disk;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Path;
import java.util.concurrent.atomic.AtomicLong;

/** A disk that is full after so many bytes, until somebody makes room. */
public final class SmallDisk implements Disk {
    private final AtomicLong room;

    /** With room for so many bytes. */
    public SmallDisk(long bytes) {
        room = new AtomicLong(bytes);
    }

    /** Has room for all from now on. */
    public void makeRoom() {
        room.set(Long.MAX_VALUE);
    }

    @Override
    public Growing create(Path file) throws IOException {
        return limited(Disk.REAL.create(file));
    }

    @Override
    public Growing goOn(Path file, long offsetBytes) throws IOException {
        return limited(Disk.REAL.goOn(file, offsetBytes));
    }

    private Growing limited(Growing file) {
        return new Growing() {
            @Override
            public void write(ByteBuffer bytes) throws IOException {
                if (room.addAndGet(-bytes.remaining()) < 0) {
                    // As the C library says ENOSPC.
                    throw new IOException("No space left on device");
                }
                file.write(bytes);
            }

            @Override
            public void sync() throws IOException {
                file.sync();
            }

            @Override
            public void close() throws IOException {
                file.close();
            }
        };
    }
}
