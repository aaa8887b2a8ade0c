package lookstep.server.keeping;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Optional;

/**
 * The folder of the copies. A marker in it says that it is the place and not the bare folder on
 * which a drive was mounted: where there has been one, nothing is written without it.
 */
final class SecondPlace {
    static final String MARKER = ".lookstep-copies";
    private static final String WORDS =
            "Lookstep puts second copies of pictures here. While this file is missing, Lookstep"
                    + " takes the drive for gone and writes nothing.\n";

    private final Path folder;
    private boolean used;

    /**
     * Touches nothing yet.
     *
     * @param used whether copies were put there before, so that there must be a marker
     */
    SecondPlace(Path folder, boolean used) {
        this.folder = folder;
        this.used = used;
    }

    Path folder() {
        return folder;
    }

    /**
     * Looks whether it is there, and marks it if it is used for the first time.
     *
     * @return why it cannot be used, and what to do; empty if it can
     */
    Optional<String> missing() {
        if (Files.isRegularFile(folder.resolve(MARKER))) {
            used = true;
            return Optional.empty();
        }
        if (used) {
            return Optional.of(
                    "the second place "
                            + folder
                            + " is gone: plug its drive in again; copying goes on by itself");
        }
        if (!Files.isDirectory(folder)) {
            return Optional.of(
                    "the second place "
                            + folder
                            + " is not there: plug its drive in, or make the folder; copying"
                            + " begins by itself");
        }
        try {
            Files.writeString(
                    folder.resolve(MARKER),
                    WORDS,
                    StandardCharsets.UTF_8,
                    StandardOpenOption.CREATE_NEW);
        } catch (IOException e) {
            return Optional.of(
                    "the second place "
                            + folder
                            + " cannot be written to ("
                            + e.getMessage()
                            + "): give this user the right to, or make room");
        }
        used = true;
        return Optional.empty();
    }
}
