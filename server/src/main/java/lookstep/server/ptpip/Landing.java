package lookstep.server.ptpip;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.Collection;
import java.util.HashSet;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import lookstep.server.disk.FreeName;
import lookstep.server.disk.WholeFile;

/**
 * The folder in which the files of one camera land. A file grows under a hidden name and gets its
 * own when it is whole and on the disk; nothing that is there is ever written over. One thread.
 */
final class Landing {
    private static final String BEFORE = ".before-";

    private final Path folder;
    private final String note;
    private final Set<String> reserved = new HashSet<>();

    /**
     * The folder is made when the first file comes.
     *
     * @param shoot tells this shoot's notes from those of others that filled the same folder
     */
    Landing(Path folder, UUID shoot) {
        this.folder = folder;
        note = BEFORE + shoot;
    }

    /**
     * Keeps a name for a file that is to come.
     *
     * @param safeName as of {@link SafeName}
     * @return where it will be
     */
    Path reserve(String safeName) {
        String wanted = onThisSystem(safeName);
        String name = wanted;
        for (int number = 2; taken(name); number++) {
            name = FreeName.nth(wanted, number);
        }
        reserved.add(key(name));
        return folder.resolve(name);
    }

    /** A system that is set to plain letters knows no others in names. */
    private String onThisSystem(String name) {
        try {
            return folder.resolve(name).getFileName().toString();
        } catch (InvalidPathException e) {
            return name.replaceAll("[^ -~]", "_");
        }
    }

    /** Whether a file of this name and size is there already. */
    boolean holds(String safeName, long octets) throws IOException {
        Path before = folder.resolve(onThisSystem(safeName));
        return Files.isRegularFile(before, LinkOption.NOFOLLOW_LINKS)
                && Files.size(before) == octets;
    }

    /**
     * What was on the card before the shoot, as it was noted when this camera was first met: kept
     * here, so that a later run of the program knows the pictures in between for new ones.
     *
     * @return the objects' handles; empty if this camera was not met before
     */
    Optional<Set<Integer>> before() {
        try {
            Set<Integer> handles = new HashSet<>();
            for (String line : Files.readAllLines(folder.resolve(note))) {
                handles.add(Integer.parseUnsignedInt(line.strip()));
            }
            return Optional.of(handles);
        } catch (NoSuchFileException never) {
            return Optional.empty();
        } catch (IOException | NumberFormatException damaged) {
            // as if it was never met: too little is fetched rather than another shoot's pictures
            return Optional.empty();
        }
    }

    /**
     * Notes what is on the card.
     *
     * @throws IOException if that is not possible now
     */
    void keepBefore(Collection<Integer> handles) throws IOException {
        Files.createDirectories(folder);
        Path part = folder.resolve(note + ".part");
        Files.write(part, handles.stream().map(Integer::toUnsignedString).toList());
        Files.move(
                part,
                folder.resolve(note),
                StandardCopyOption.ATOMIC_MOVE,
                StandardCopyOption.REPLACE_EXISTING);
    }

    /** The name will not be needed. */
    void release(Path file) {
        reserved.remove(key(file.getFileName().toString()));
    }

    private boolean taken(String name) {
        // some file systems do not tell capitals from small letters
        return reserved.contains(key(name))
                || Files.exists(folder.resolve(name), LinkOption.NOFOLLOW_LINKS);
    }

    private static String key(String name) {
        return name.toLowerCase(Locale.ROOT);
    }

    /** Where a file grows until it is whole. */
    static Path part(Path file) {
        return FreeName.part(file);
    }

    /** How much of a file is there, 0 if nothing. */
    long there(Path file) throws IOException {
        Path part = part(file);
        return Files.isRegularFile(part, LinkOption.NOFOLLOW_LINKS) ? Files.size(part) : 0;
    }

    /**
     * Writes the next octets of a file that is not whole yet; what was there behind them is gone.
     *
     * @throws IOException if they are not there now; it can be tried again
     */
    void write(Path file, long at, byte[] octets) throws IOException {
        Files.createDirectories(folder);
        try (FileChannel out =
                FileChannel.open(
                        part(file),
                        StandardOpenOption.WRITE,
                        StandardOpenOption.CREATE,
                        LinkOption.NOFOLLOW_LINKS)) {
            ByteBuffer buffer = ByteBuffer.wrap(octets);
            long to = at;
            while (buffer.hasRemaining()) {
                to += out.write(buffer, to);
            }
            out.truncate(to);
        }
    }

    /** Throws away what is there of a file that will not come. */
    void drop(Path file) {
        release(file);
        try {
            Files.deleteIfExists(part(file));
        } catch (IOException e) {
            // a hidden file is left behind; nobody looks at it
        }
    }

    /**
     * Gives a whole file its name.
     *
     * @param wanted the name that the camera gave, made safe: if it is there with the same content
     *     already, that one is it
     * @return where it is
     * @throws IOException if that is not possible now; it can be tried again
     */
    Path finish(Path file, String wanted) throws IOException {
        Path part = part(file);
        try (FileChannel out = FileChannel.open(part, StandardOpenOption.WRITE)) {
            out.force(true);
        }
        Path before = folder.resolve(onThisSystem(wanted));
        if (Files.isRegularFile(before, LinkOption.NOFOLLOW_LINKS)
                && Files.mismatch(before, part) < 0) {
            drop(file);
            return before;
        }
        Path name = WholeFile.place(part, file).path();
        release(file);
        return name;
    }
}
