package lookstep.server.disk;

import java.io.IOException;
import java.util.Locale;

/**
 * A full disk, told from other troubles. Java has no exception of its own for it, only the words of
 * the system: ENOSPC and EDQUOT of POSIX as the C library says them, ERROR_DISK_FULL of Windows.
 */
public final class DiskFull {
    private DiskFull() {}

    /** Whether this is why a write failed. */
    public static boolean is(IOException trouble) {
        String words = String.valueOf(trouble.getMessage()).toLowerCase(Locale.ROOT);
        return words.contains("no space left on device")
                || words.contains("quota exceeded")
                || words.contains("not enough space on the disk");
    }
}
