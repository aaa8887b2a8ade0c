package lookstep.server.ptpip;

import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;
import lookstep.protocols.ptpip.ObjectFormat;
import lookstep.protocols.ptpip.ObjectInfo;

/** A file of the camera that is on its way. One thread. */
final class Arriving {
    private static final int MOST_THUMB_TRIES = 2;

    int handle;

    /** Absent until it was asked for. */
    ObjectInfo info;

    /** Name as wanted, made safe. */
    String wanted;

    /** Where it will be. */
    Path file;

    /** Whether {@link #info} is known to hold in the present session. */
    boolean checked;

    /** Octets that are on the disk. */
    long received;

    /** All of it is on the disk, but not under its name yet. */
    boolean complete;

    /** It may have come in an earlier run of the program. */
    boolean maybeThere;

    /** It does not come in parts. */
    boolean onlyWhole;

    int thumbTries;
    int refusals;
    long retryNanos;
    boolean diskTrouble;
    Optional<String> trouble = Optional.empty();

    /** What tells one file from another, whatever its handle. */
    record Identity(String name, long octets, String captured) {
        static Identity of(ObjectInfo info) {
            return new Identity(info.fileName(), info.sizeOctets(), info.captureDate());
        }
    }

    Arriving(int handle, long nowNanos) {
        this.handle = handle;
        this.retryNanos = nowNanos;
    }

    boolean due(long nowNanos) {
        return nowNanos - retryNanos >= 0;
    }

    boolean wantsThumb() {
        return thumbTries < MOST_THUMB_TRIES;
    }

    void thumbDone() {
        thumbTries = MOST_THUMB_TRIES;
    }

    boolean isJpeg() {
        String name = wanted.toLowerCase(Locale.ROOT);
        return info.format() == ObjectFormat.EXIF_JPEG.code()
                || info.format() == ObjectFormat.JFIF.code()
                || name.endsWith(".jpg")
                || name.endsWith(".jpeg");
    }

    /** Begins from its first octet again. */
    void again() {
        received = 0;
        complete = false;
    }
}
