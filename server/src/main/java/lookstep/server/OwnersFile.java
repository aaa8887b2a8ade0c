package lookstep.server;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFilePermissions;

/** A small file that only its owner can read. */
final class OwnersFile {
    private OwnersFile() {}

    /**
     * Writes it whole or not at all.
     *
     * @throws IOException if it cannot be written
     */
    static void write(Path file, String text) throws IOException {
        Path part = file.resolveSibling("." + file.getFileName() + ".part");
        Files.deleteIfExists(part);
        try {
            Files.createFile(
                    part,
                    PosixFilePermissions.asFileAttribute(
                            PosixFilePermissions.fromString("rw-------")));
        } catch (UnsupportedOperationException noSuchPermissions) {
            Files.createFile(part);
        }
        Files.writeString(part, text);
        Files.move(part, file, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
    }
}
