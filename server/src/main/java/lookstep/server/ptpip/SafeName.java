package lookstep.server.ptpip;

import java.util.Locale;
import java.util.Optional;
import lookstep.protocols.ptpip.ObjectFormat;
import lookstep.server.disk.HarmlessName;

/** The name of a file as a camera gives it, made harmless; there is always one. */
final class SafeName {
    private SafeName() {}

    /**
     * A safe name.
     *
     * @param fromCamera anything
     * @param handle for a name if nothing is left of it
     * @param format code, for its ending in that case
     */
    static String of(String fromCamera, int handle, int format) {
        Optional<String> name =
                HarmlessName.of(fromCamera).filter(n -> n.chars().anyMatch(c -> c != '_'));
        return name.orElseGet(
                () ->
                        "object %08X.%s"
                                .formatted(
                                        handle,
                                        format == ObjectFormat.EXIF_JPEG.code() ? "JPG" : "bin"));
    }

    /** Name without the ending, in small letters: what the files of one shot share. */
    static String stem(String name) {
        int dot = name.lastIndexOf('.');
        return (dot < 0 ? name : name.substring(0, dot)).toLowerCase(Locale.ROOT);
    }
}
