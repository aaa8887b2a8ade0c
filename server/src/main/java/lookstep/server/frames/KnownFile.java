package lookstep.server.frames;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * A file that has been taken before, so that it is not taken again after a restart.
 *
 * @param name its path inside the watched folder, with {@code /} between the parts
 * @param sizeBytes its length
 * @param modified its time of change, kept to the millisecond
 */
public record KnownFile(String name, long sizeBytes, Instant modified) {
    public KnownFile {
        modified = modified.truncatedTo(ChronoUnit.MILLIS);
    }

    /** What to remember of a file that came from {@code folder}. */
    public static KnownFile of(Path folder, ArrivedFile file) {
        return of(folder, file.path(), file.sizeBytes(), file.modified());
    }

    /**
     * Every picture that lies in the folder now: give these to a {@link WatchedFolder} that shall
     * only take what comes later.
     *
     * @throws IOException if the folder cannot be listed
     */
    public static Set<KnownFile> allIn(Path folder) throws IOException {
        return FolderListing.of(folder).pictures().stream()
                .map(seen -> of(folder, seen.path(), seen.sizeBytes(), seen.modified().toInstant()))
                .collect(Collectors.toSet());
    }

    static KnownFile of(Path folder, Path file, long sizeBytes, Instant modified) {
        return new KnownFile(name(folder, file), sizeBytes, modified);
    }

    /** A file's path inside the folder, with {@code /} between the parts. */
    public static String name(Path folder, Path file) {
        Path inside = folder.relativize(file);
        StringBuilder name = new StringBuilder();
        for (Path part : inside) {
            name.append(name.isEmpty() ? "" : "/").append(part);
        }
        return name.toString();
    }
}
