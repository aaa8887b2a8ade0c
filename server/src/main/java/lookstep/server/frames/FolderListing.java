package lookstep.server.frames;

import java.io.IOException;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.nio.file.attribute.FileTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * What lies in the folder and in the subfolders that cameras make (two levels down), oldest first.
 * Links to folders are not followed, so that no loop can be walked.
 *
 * @param folders the folder itself and its subfolders
 * @param pictures files whose names say JPEG or RAW
 */
record FolderListing(List<Path> folders, List<Seen> pictures) {
    private static final int LEVELS_BELOW = 2;

    /**
     * One file as it was found.
     *
     * @param path where
     * @param sizeBytes length
     * @param modified time of change as the file system keeps it
     */
    record Seen(Path path, long sizeBytes, FileTime modified) {}

    /**
     * Lists the folder.
     *
     * @throws IOException if the folder itself cannot be listed; a subfolder that cannot is left
     *     out
     */
    static FolderListing of(Path folder) throws IOException {
        List<Path> folders = new ArrayList<>();
        List<Seen> pictures = new ArrayList<>();
        list(folder, LEVELS_BELOW, folders, pictures);
        pictures.sort(Comparator.comparing(Seen::modified).thenComparing(Seen::path));
        return new FolderListing(List.copyOf(folders), List.copyOf(pictures));
    }

    private static void list(Path folder, int below, List<Path> folders, List<Seen> pictures)
            throws IOException {
        List<Path> subfolders = new ArrayList<>();
        try (DirectoryStream<Path> entries = Files.newDirectoryStream(folder)) {
            folders.add(folder);
            for (Path entry : entries) {
                if (isHidden(entry)) {
                    continue;
                }
                if (Files.isDirectory(entry, LinkOption.NOFOLLOW_LINKS)) {
                    subfolders.add(entry);
                } else {
                    seen(entry).ifPresent(pictures::add);
                }
            }
        } catch (DirectoryIteratorException broken) {
            throw broken.getCause();
        }
        if (below == 0) {
            return;
        }
        for (Path subfolder : subfolders) {
            try {
                list(subfolder, below - 1, folders, pictures);
            } catch (IOException unreadable) {
                // Gone again, or not ours to read: the rest of the folder still counts.
                folders.remove(subfolder);
            }
        }
    }

    /** The file as it is now; empty if it is gone, is no file, or its name is not for us. */
    static Optional<Seen> seen(Path file) {
        if (isHidden(file) || PictureKind.of(file).isEmpty()) {
            return Optional.empty();
        }
        try {
            BasicFileAttributes is = Files.readAttributes(file, BasicFileAttributes.class);
            return is.isRegularFile()
                    ? Optional.of(new Seen(file, is.size(), is.lastModifiedTime()))
                    : Optional.empty();
        } catch (IOException gone) {
            return Optional.empty();
        }
    }

    static boolean isHidden(Path path) {
        return path.getFileName().toString().startsWith(".");
    }
}
