package lookstep.server.keeping;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.nio.file.attribute.FileTime;

/** What tells that an original is still the file that it was. */
record Snapshot(long sizeBytes, FileTime modified, Object key) {
    /**
     * How it is now.
     *
     * @throws IOException if it is not there
     */
    static Snapshot of(Path file) throws IOException {
        BasicFileAttributes is = Files.readAttributes(file, BasicFileAttributes.class);
        // Not every system has keys of files.
        return new Snapshot(is.size(), is.lastModifiedTime(), String.valueOf(is.fileKey()));
    }
}
