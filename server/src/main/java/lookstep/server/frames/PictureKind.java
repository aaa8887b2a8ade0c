package lookstep.server.frames;

import java.nio.file.Path;
import java.time.Duration;
import java.util.Locale;
import java.util.Optional;

/** What a file's name says of it, and how it is found whole (endings: common practice). */
enum PictureKind {
    /** Its structure tells whether it is whole. */
    JPEG(Duration.ZERO),

    /**
     * RAW built on TIFF: its structure tells whether all is inside the file, though not whether the
     * room is filled, so it must have rested for a moment as well.
     */
    TIFF_RAW(Duration.ofMillis(300)),

    /** RAW of another structure: only its rest tells. */
    OTHER_RAW(Duration.ofSeconds(1));

    private final long restNanos;

    PictureKind(Duration rest) {
        this.restNanos = rest.toNanos();
    }

    /** Empty if the name is no picture's. */
    static Optional<PictureKind> of(Path file) {
        String name = file.getFileName().toString();
        int dot = name.lastIndexOf('.');
        if (dot < 0) {
            return Optional.empty();
        }
        return switch (name.substring(dot + 1).toLowerCase(Locale.ROOT)) {
            case "jpg", "jpeg", "jpe" -> Optional.of(JPEG);
            case "dng", "arw", "sr2", "nef", "nrw", "cr2", "srw", "pef", "tif", "tiff" ->
                    Optional.of(TIFF_RAW);
            case "3fr", "iiq", "erf", "mef", "mos", "dcr", "kdc" -> Optional.of(TIFF_RAW);
            case "orf", "raf", "rw2", "rwl", "cr3", "crw", "x3f" -> Optional.of(OTHER_RAW);
            default -> Optional.empty();
        };
    }

    /** How long it must not have changed before it is taken. */
    long restNanos() {
        return restNanos;
    }

    boolean isRaw() {
        return this != JPEG;
    }
}
