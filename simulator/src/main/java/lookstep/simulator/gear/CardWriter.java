package lookstep.simulator.gear;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.DirectoryStream;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.concurrent.locks.LockSupport;
import java.util.function.LongConsumer;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Brings pictures from the camera into a folder, as LS_0001.JPG and counting up; nothing that is
 * there is overwritten. One thread at a time.
 */
public final class CardWriter implements Transfer {
    private static final Pattern NAME = Pattern.compile("LS_(\\d{4,9})\\.[A-Z]{3}");
    private static final int PIECE_BYTES = 1 << 16;

    /** How a file gets its name. */
    public enum Delivery {
        /** In pieces, straight under its final name: whoever watches sees half a file at first. */
        STRAIGHT,
        /** Under a hidden name, renamed when it is whole. */
        RENAMED
    }

    private final Path folder;
    private final Delivery delivery;
    private final LongConsumer pauseNanos;
    private double nextPart = 1;
    private int pieceBytes = PIECE_BYTES;
    private long pause;

    /**
     * A writer into a folder that exists by the first picture.
     *
     * @param folder where to
     * @param delivery how
     * @param pauseNanos waits so many nanoseconds, for {@link Fault.SlowWriter}
     */
    public CardWriter(Path folder, Delivery delivery, LongConsumer pauseNanos) {
        this.folder = folder;
        this.delivery = delivery;
        this.pauseNanos = pauseNanos;
    }

    /** A writer straight under the final name, which really waits when it is slow. */
    public CardWriter(Path folder) {
        this(folder, Delivery.STRAIGHT, LockSupport::parkNanos);
    }

    /**
     * Writes the files of one release.
     *
     * @return where the first is, or would be if all of it had come
     * @throws IOException if the folder cannot be written to
     */
    @Override
    public Path send(List<CameraFile> files) throws IOException {
        CameraFile first = files.get(0);
        for (long number = highest() + 1; ; number++) {
            Path last;
            try {
                last = write(number, first);
            } catch (FileAlreadyExistsException taken) {
                continue;
            }
            for (CameraFile more : files.subList(1, files.size())) {
                write(number, more);
            }
            return last;
        }
    }

    private Path write(long number, CameraFile file) throws IOException {
        int bytes = (int) (file.bytes().length * nextPart);
        boolean whole = bytes == file.bytes().length;
        Path last = folder.resolve("LS_%04d.%s".formatted(number, file.ending()));
        Path first =
                delivery == Delivery.RENAMED
                        ? folder.resolve("." + last.getFileName() + ".part")
                        : last;
        if (Files.exists(last)) {
            throw new FileAlreadyExistsException(last.toString());
        }
        write(first, file.bytes(), bytes);
        nextPart = 1;
        if (whole && delivery == Delivery.RENAMED) {
            Files.move(first, last, StandardCopyOption.ATOMIC_MOVE);
        }
        return last;
    }

    @Override
    public void misbehave(Fault.OfCamera fault) {
        if (fault instanceof Fault.HalfFile half) {
            nextPart = half.part();
        } else if (fault instanceof Fault.SlowWriter slow) {
            pieceBytes = slow.pieceBytes();
            pause = slow.pauseNanos();
        } else {
            throw new IllegalArgumentException("writing a file cannot do this: " + fault);
        }
    }

    @Override
    public void mend() {
        nextPart = 1;
        pieceBytes = PIECE_BYTES;
        pause = 0;
    }

    private void write(Path file, byte[] jpeg, int bytes) throws IOException {
        try (FileChannel out =
                FileChannel.open(file, StandardOpenOption.WRITE, StandardOpenOption.CREATE_NEW)) {
            int at = 0;
            while (at < bytes) {
                int piece = Math.min(pieceBytes, bytes - at);
                ByteBuffer buffer = ByteBuffer.wrap(jpeg, at, piece);
                while (buffer.hasRemaining()) {
                    out.write(buffer);
                }
                at += piece;
                if (pause > 0 && at < bytes) {
                    pauseNanos.accept(pause);
                }
            }
        }
    }

    private long highest() throws IOException {
        long highest = 0;
        try (DirectoryStream<Path> files = Files.newDirectoryStream(folder)) {
            for (Path file : files) {
                Matcher name = NAME.matcher(file.getFileName().toString());
                if (name.matches()) {
                    highest = Math.max(highest, Long.parseLong(name.group(1)));
                }
            }
        }
        return highest;
    }
}
