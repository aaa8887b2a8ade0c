package lookstep.server.ptpip;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;

/** Why a file could not be written, with the mend. */
final class DiskWords {
    /** Less than this is full: a picture does not fit. */
    private static final long FULL_OCTETS = 1 << 24;

    private DiskWords() {}

    static String of(Path file, IOException why) {
        Path folder = file.getParent();
        if (isFull(folder, why)) {
            return "The disk is full: "
                    + file.getFileName()
                    + " does not fit. Make room on the disk of "
                    + folder
                    + "; the picture is still in the camera and comes by itself then.";
        }
        if (why instanceof AccessDeniedException) {
            return "The folder may not be written to: "
                    + folder
                    + ". Give this user the right to; the picture is still in the camera and comes"
                    + " by itself then.";
        }
        return "A picture cannot be written: "
                + why.getMessage()
                + ". Look at the folder and its drive: "
                + folder
                + "; the picture is still in the camera and comes by itself then.";
    }

    private static boolean isFull(Path folder, IOException why) {
        String message = String.valueOf(why.getMessage()).toLowerCase(Locale.ROOT);
        if (message.contains("no space left") || message.contains("quota")) {
            return true;
        }
        try {
            return Files.getFileStore(folder).getUsableSpace() < FULL_OCTETS;
        } catch (IOException unknown) {
            return false;
        }
    }
}
