package lookstep.server.frames;

import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.OptionalLong;

/** What is remembered of one name in the watched folder. Used by the loop's thread only. */
final class TrackedFile {
    /**
     * The content that was taken under this name.
     *
     * @param sizeBytes its length
     * @param modifiedMillis its time of change, in ms since 1970
     * @param checksum of its bytes; empty if it was taken before the last start
     */
    record Taken(long sizeBytes, long modifiedMillis, OptionalLong checksum) {
        boolean fits(FolderListing.Seen seen) {
            return seen.sizeBytes() == sizeBytes && seen.modified().toMillis() == modifiedMillis;
        }
    }

    final Path path;

    final PictureKind kind;

    /** True if whoever moved it here said that it is whole: it need not rest. */
    boolean wholeByTransfer;

    /** Size and time at the last look, -1 and null before the first. */
    long sizeBytes = -1;

    FileTime modified;

    /** When this content was first met, and when it last changed. */
    long firstSeenNanos;

    long lastChangeNanos;
    long lastCheckNanos;
    long nextLookNanos;

    /** True while there is something to look for. */
    boolean pending;

    /** True if the bytes may differ from those that were last checked. */
    boolean unchecked;

    /** What was last said about it; null for nothing. */
    FolderNote.Kind said;

    /** Null until a frame was taken. */
    Taken taken;

    TrackedFile(Path path, PictureKind kind) {
        this.path = path;
        this.kind = kind;
    }

    boolean unchangedSinceLook(FolderListing.Seen seen) {
        return seen.sizeBytes() == sizeBytes && seen.modified().equals(modified);
    }

    void remember(FolderListing.Seen seen) {
        sizeBytes = seen.sizeBytes();
        modified = seen.modified();
    }
}
