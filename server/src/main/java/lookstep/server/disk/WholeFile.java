package lookstep.server.disk;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;

/** Puts a file that is whole and synced under its final name, over nobody else's. */
public final class WholeFile {
    /** Where a file system knows no hard links, only one of us may look and rename at a time. */
    private static final Object LOOK_AND_RENAME = new Object();

    /**
     * Where a file is now.
     *
     * @param path its final name
     * @param fresh false if the same bytes were there already, and were kept
     */
    public record Placed(Path path, boolean fresh) {}

    private WholeFile() {}

    /**
     * Puts it under the first name that is free: the wanted one, or with (2) and so on. If a file
     * of one of these names has the same content, that one is kept and the part is deleted.
     *
     * @param part beside the wanted name, whole and synced
     * @throws IOException if it cannot be done; the part is still there then
     */
    public static Placed place(Path part, Path wanted) throws IOException {
        int n = 1;
        while (true) {
            Path name = FreeName.nth(wanted, n);
            if (!isThere(name)) {
                try {
                    rename(part, name);
                    return new Placed(name, true);
                } catch (FileAlreadyExistsException justNow) {
                    // Looked at below like any other name that is taken.
                }
            }
            if (same(part, name)) {
                Files.delete(part);
                return new Placed(name, false);
            }
            n++;
        }
    }

    /**
     * Makes a folder and those above it that are missing, each durable with the one that it is in.
     *
     * @throws IOException if that cannot be done
     */
    public static void makeFolder(Path folder) throws IOException {
        if (Files.isDirectory(folder)) {
            return;
        }
        Path above = folder.toAbsolutePath().getParent();
        if (above != null) {
            makeFolder(above);
        }
        try {
            Files.createDirectory(folder);
        } catch (FileAlreadyExistsException justNow) {
            if (!Files.isDirectory(folder)) {
                throw justNow;
            }
        }
        syncFolder(folder);
    }

    /**
     * Renames in one step, and never over a file. rename(2) of POSIX would replace one, so the name
     * is made as a second link, which fails if it is taken; then the first goes.
     *
     * @throws FileAlreadyExistsException if the name is taken
     */
    public static void rename(Path from, Path to) throws IOException {
        try {
            Files.createLink(to, from);
        } catch (FileAlreadyExistsException taken) {
            throw taken;
        } catch (IOException | UnsupportedOperationException noLinksHere) {
            synchronized (LOOK_AND_RENAME) {
                if (isThere(to)) {
                    throw new FileAlreadyExistsException(to.toString());
                }
                Files.move(from, to, StandardCopyOption.ATOMIC_MOVE);
            }
            syncFolder(to);
            return;
        }
        Files.delete(from);
        syncFolder(to);
    }

    /** A name is durable only with its folder (POSIX fsync). Some systems open no folders. */
    static void syncFolder(Path file) throws IOException {
        FileChannel folder;
        try {
            folder = FileChannel.open(file.toAbsolutePath().getParent(), StandardOpenOption.READ);
        } catch (IOException foldersCannotBeOpened) {
            return;
        }
        try (folder) {
            folder.force(true);
        } catch (IOException foldersCannotBeSynced) {
            // Network shares and exFAT: the system's own time has to do.
            return;
        }
    }

    private static boolean isThere(Path name) {
        return Files.exists(name, LinkOption.NOFOLLOW_LINKS);
    }

    private static boolean same(Path part, Path there) throws IOException {
        return Files.isRegularFile(there)
                && Files.size(there) == Files.size(part)
                && Files.mismatch(part, there) < 0;
    }
}
