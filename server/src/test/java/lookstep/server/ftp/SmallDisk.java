package lookstep.server.ftp;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Path;
import java.util.concurrent.atomic.AtomicLong;
import lookstep.server.disk.Disk;

/** A disk that is full after so many bytes, until somebody makes room. */
final class SmallDisk implements Disk {
    private final AtomicLong room;

    SmallDisk(long bytes) {
        room = new AtomicLong(bytes);
    }

    void makeRoom() {
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
