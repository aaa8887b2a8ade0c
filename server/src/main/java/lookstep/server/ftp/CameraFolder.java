package lookstep.server.ftp;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import lookstep.server.disk.Disk;
import lookstep.server.disk.FreeName;
import lookstep.server.disk.WholeFile;

/**
 * One camera's folder, into which all of its connections write. Whatever folders the camera thinks
 * it is in, its files lie here side by side. Any thread.
 */
final class CameraFolder {
    private final Path folder;
    private final Disk disk;
    private final Map<String, Half> halves = new HashMap<>();
    private final Set<String> promised = new HashSet<>();
    private boolean renamesAfterwards;

    private record Half(Path part, long bytes) {}

    /**
     * Looks at nothing yet.
     *
     * @param folder made with the first file
     */
    CameraFolder(Path folder, Disk disk) {
        this.folder = folder;
        this.disk = disk;
    }

    /**
     * Begins a file.
     *
     * @throws IOException if the folder or the file cannot be made
     */
    synchronized Upload begin(String name) throws IOException {
        WholeFile.makeFolder(folder);
        for (int n = 1; ; n++) {
            Path part = FreeName.part(folder.resolve(FreeName.nth(name, n)));
            try {
                return new Upload(name, part, disk.create(part), 0);
            } catch (FileAlreadyExistsException half) {
                // Half of a file, or one that is coming in just now: both stay.
            }
        }
    }

    /**
     * Goes on with a file that stopped half way.
     *
     * @param offsetBytes where to; empty for where it stopped
     * @return empty if there is no such half, or it is shorter than that
     * @throws IOException if it cannot be opened
     */
    synchronized Optional<Upload> goOn(String name, Optional<Long> offsetBytes) throws IOException {
        Half half = halves.get(name);
        if (half == null || offsetBytes.orElse(half.bytes()) > half.bytes()) {
            return Optional.empty();
        }
        long from = offsetBytes.orElse(half.bytes());
        Upload upload = new Upload(name, half.part(), disk.goOn(half.part(), from), from);
        halves.remove(name);
        return Optional.of(upload);
    }

    /** How much of a file came before it stopped. */
    synchronized Optional<Long> halfBytes(String name) {
        return Optional.ofNullable(halves.get(name)).map(Half::bytes);
    }

    /** Whether a whole file of this name is there. */
    boolean isTaken(String name) {
        return Files.exists(folder.resolve(name), LinkOption.NOFOLLOW_LINKS);
    }

    /** A name like this that no file has and nobody else was promised. */
    synchronized String promise(String name) {
        for (int n = 1; ; n++) {
            String free = FreeName.nth(name, n);
            if (!isTaken(free) && promised.add(free)) {
                return free;
            }
        }
    }

    /**
     * Gives a synced file its final name.
     *
     * @throws IOException if that cannot be done; the part is kept
     */
    WholeFile.Placed place(Path part, String name) throws IOException {
        WholeFile.Placed placed = WholeFile.place(part, folder.resolve(name));
        forget(name, placed.path());
        return placed;
    }

    /** A half of what is whole now is of no more use; another file's half is. */
    private synchronized void forget(String name, Path whole) throws IOException {
        promised.remove(name);
        Half half = halves.get(name);
        if (half != null && beginsWith(whole, half)) {
            halves.remove(name);
            Files.deleteIfExists(half.part());
        }
    }

    /** Keeps what came of a file, so that it can be gone on with: of two halves the longer. */
    synchronized void stopped(Upload upload) throws IOException {
        promised.remove(upload.name());
        Half now = new Half(upload.part(), upload.bytes());
        Half before = halves.get(upload.name());
        if (before == null) {
            halves.put(upload.name(), now);
        } else if (now.bytes() < before.bytes() && beginsWith(before.part(), now)) {
            Files.deleteIfExists(now.part());
        } else {
            halves.put(upload.name(), now);
            if (beginsWith(now.part(), before)) {
                Files.deleteIfExists(before.part());
            }
        }
    }

    /** Takes a file away that is of no use to anybody. */
    synchronized void drop(Upload upload) throws IOException {
        promised.remove(upload.name());
        Files.deleteIfExists(upload.part());
    }

    /** Whether this camera renames its files when they are whole, as far as it has shown. */
    synchronized boolean renamesAfterwards() {
        return renamesAfterwards;
    }

    synchronized void hasRenamed() {
        renamesAfterwards = true;
    }

    private static boolean beginsWith(Path file, Half half) throws IOException {
        if (!Files.exists(half.part())) {
            return false;
        }
        long differ = Files.mismatch(file, half.part());
        return differ < 0 || differ >= half.bytes();
    }
}
