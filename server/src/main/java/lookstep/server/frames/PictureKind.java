package lookstep.server.frames;

import java.nio.file.Path;
import java.time.Duration;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;

/** What a file's name says of it, and how it is found whole (endings: common practice). */
enum PictureKind {
    /** Its structure tells whether it is whole. */
    JPEG(Set.of("jpg", "jpeg", "jpe"), Duration.ZERO),

    /**
     * RAW built on TIFF: its structure tells whether all is inside the file, though not whether the
     * room is filled, so it must have rested for a moment as well.
     */
    TIFF_RAW(
            Set.of(
                    "dng", "arw", "sr2", "nef", "nrw", "cr2", "srw", "pef", "tif", "tiff", "3fr",
                    "iiq", "erf", "mef", "mos", "dcr", "kdc"),
            Duration.ofMillis(300)),

    /** RAW of another structure: only its rest tells. */
    OTHER_RAW(Set.of("orf", "raf", "rw2", "rwl", "cr3", "crw", "x3f"), Duration.ofSeconds(1));

    private final Set<String> endings;
    private final long restNanos;

    PictureKind(Set<String> endings, Duration rest) {
        this.endings = endings;
        this.restNanos = rest.toNanos();
    }

    /** Empty if the name is no picture's. */
    static Optional<PictureKind> of(Path file) {
        String name = file.getFileName().toString();
        String ending = name.substring(name.lastIndexOf('.') + 1).toLowerCase(Locale.ROOT);
        for (PictureKind kind : values()) {
            if (name.indexOf('.') >= 0 && kind.endings.contains(ending)) {
                return Optional.of(kind);
            }
        }
        return Optional.empty();
    }

    /** How long it must not have changed before it is taken. */
    long restNanos() {
        return restNanos;
    }

    boolean isRaw() {
        return this != JPEG;
    }
}
