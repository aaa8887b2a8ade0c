package lookstep.server.disk;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFileAttributeView;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Arrays;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.locks.Lock;

/** Replaces a file that others write too: whole or not at all, and only what was seen before. */
public final class ReplacedFile {
    private static final int MOST_LINKS = 40;
    private static final Set<PosixFilePermission> WRITING =
            PosixFilePermissions.fromString("-w--w--w-");

    private final Disk disk;
    private final Lock moment;

    /**
     * @param moment is held while the file is compared once more and renamed. It keeps out those
     *     alone who hold it too: for others these microseconds remain, since no system call of
     *     POSIX renames over a file on the condition of its content.
     */
    public ReplacedFile(Disk disk, Lock moment) {
        this.disk = disk;
        this.moment = moment;
    }

    /**
     * The file that a name means: behind links, also if it is not there.
     *
     * @throws IOException if links go in a circle
     */
    public static Path behindLinks(Path name) throws IOException {
        Path at = name.toAbsolutePath();
        for (int i = 0; i < MOST_LINKS; i++) {
            if (!Files.isSymbolicLink(at)) {
                return at;
            }
            at = at.resolveSibling(Files.readSymbolicLink(at)).normalize();
        }
        throw new IOException("links lead in a circle");
    }

    /**
     * What is in it; empty if it is not there.
     *
     * @param most reads no more bytes than this
     * @throws IOException if it cannot be read
     */
    public static Optional<byte[]> read(Path name, int most) throws IOException {
        try (var in = Files.newInputStream(name)) {
            return Optional.of(in.readNBytes(most));
        } catch (NoSuchFileException notThere) {
            return Optional.empty();
        }
    }

    /**
     * Puts other content in its place. Permissions stay; its owner stays if the system allows it; a
     * link stays a link.
     *
     * @param seen what was in it; empty if it was not there
     * @return false if there is something else now, which then stays
     * @throws IOException if it cannot be written; the file is as it was then
     */
    public boolean replace(Path name, Optional<byte[]> seen, byte[] content) throws IOException {
        Path file = behindLinks(name);
        if (seen.isPresent()) {
            mayBeWritten(file);
        }
        Path part =
                file.resolveSibling(
                        "." + file.getFileName() + "." + ProcessHandle.current().pid() + ".part");
        Files.deleteIfExists(part);
        try {
            write(part, file, seen.isPresent(), content);
            moment.lock();
            try {
                return rename(part, file, seen, content.length);
            } finally {
                moment.unlock();
            }
        } finally {
            Files.deleteIfExists(part);
        }
    }

    private void write(Path part, Path file, boolean isThere, byte[] content) throws IOException {
        try (Disk.Growing growing = disk.create(part)) {
            if (isThere) {
                takeOver(part, file);
            }
            growing.write(ByteBuffer.wrap(content));
            growing.sync();
        }
    }

    private static boolean rename(Path part, Path file, Optional<byte[]> seen, int length)
            throws IOException {
        if (seen.isEmpty()) {
            if (Files.exists(file, LinkOption.NOFOLLOW_LINKS)) {
                return false;
            }
            WholeFile.rename(part, file);
            return true;
        }
        int most = Math.max(length, seen.get().length) + 1;
        Optional<byte[]> now = read(file, most);
        if (now.isEmpty() || !Arrays.equals(now.get(), seen.get())) {
            return false;
        }
        Files.move(part, file, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
        WholeFile.syncFolder(file);
        return true;
    }

    /** Root may write everything, so that the permissions are asked as well. */
    private static void mayBeWritten(Path file) throws IOException {
        if (!Files.isWritable(file)) {
            throw new AccessDeniedException(file.toString(), null, "it is read-only");
        }
        PosixFileAttributeView view =
                Files.getFileAttributeView(file, PosixFileAttributeView.class);
        if (view != null
                && view.readAttributes().permissions().stream().noneMatch(WRITING::contains)) {
            throw new AccessDeniedException(file.toString(), null, "it is read-only");
        }
    }

    private static void takeOver(Path part, Path file) throws IOException {
        PosixFileAttributeView from =
                Files.getFileAttributeView(file, PosixFileAttributeView.class);
        PosixFileAttributeView to = Files.getFileAttributeView(part, PosixFileAttributeView.class);
        if (from == null || to == null) {
            return;
        }
        var attributes = from.readAttributes();
        try {
            if (!to.readAttributes().group().equals(attributes.group())) {
                to.setGroup(attributes.group());
            }
            if (!to.getOwner().equals(attributes.owner())) {
                to.setOwner(attributes.owner());
            }
        } catch (IOException notAllowed) {
            // Only root gives files away; the file is ours then.
        }
        to.setPermissions(attributes.permissions());
    }
}
