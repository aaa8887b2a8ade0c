package lookstep.server.ptpip;

import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.regex.Pattern;
import lookstep.protocols.ptpip.ObjectFormat;

/**
 * The name of a file as a camera gives it, made safe: a name in one folder, shown as it is, of a
 * length that leaves room for more letters.
 */
final class SafeName {
    /** Octets in UTF-8; names may have 255 on the file systems in use. */
    static final int MOST_OCTETS = 200;

    private static final int MOST_ENDING = 12;
    private static final String FORBIDDEN = "/\\:*?\"<>|";

    /** Names of devices on some systems, whatever their ending. */
    private static final Pattern DEVICE =
            Pattern.compile("(?i)(con|prn|aux|nul|com[0-9]|lpt[0-9])(\\..*)?");

    private SafeName() {}

    /**
     * A safe name.
     *
     * @param fromCamera anything
     * @param handle for a name if nothing is left of it
     * @param format code, for its ending in that case
     */
    static String of(String fromCamera, int handle, int format) {
        StringBuilder safe = new StringBuilder();
        fromCamera
                .codePoints()
                .forEach(c -> safe.appendCodePoint(isShown(c) && !isForbidden(c) ? c : '_'));
        String name = trimmed(safe.toString());
        if (name.isEmpty() || name.chars().allMatch(c -> c == '_')) {
            return "object %08X.%s"
                    .formatted(handle, format == ObjectFormat.EXIF_JPEG.code() ? "JPG" : "bin");
        }
        if (DEVICE.matcher(name).matches()) {
            name = "_" + name;
        }
        return shortened(name);
    }

    /** Name without the ending, in small letters: what the files of one shot share. */
    static String stem(String name) {
        int dot = name.lastIndexOf('.');
        return (dot < 0 ? name : name.substring(0, dot)).toLowerCase(Locale.ROOT);
    }

    /** {@code NAME (2).JPG}. */
    static String numbered(String name, int number) {
        int dot = name.lastIndexOf('.');
        return dot < 0
                ? name + " (" + number + ")"
                : name.substring(0, dot) + " (" + number + ")" + name.substring(dot);
    }

    /** Neither a control, nor half a letter, nor what changes the direction of what follows. */
    static boolean isShown(int codePoint) {
        return switch (Character.getType(codePoint)) {
            case Character.CONTROL,
                    Character.FORMAT,
                    Character.SURROGATE,
                    Character.PRIVATE_USE,
                    Character.UNASSIGNED,
                    Character.LINE_SEPARATOR,
                    Character.PARAGRAPH_SEPARATOR ->
                    false;
            default -> true;
        };
    }

    private static boolean isForbidden(int codePoint) {
        return FORBIDDEN.indexOf(codePoint) >= 0;
    }

    /** No dot at the front, which would hide it; no dot or space at the end, which some cut off. */
    private static String trimmed(String name) {
        int from = 0;
        int to = name.length();
        while (from < to && (name.charAt(from) == '.' || name.charAt(from) == ' ')) {
            from++;
        }
        while (from < to && (name.charAt(to - 1) == '.' || name.charAt(to - 1) == ' ')) {
            to--;
        }
        return name.substring(from, to);
    }

    private static String shortened(String name) {
        if (octets(name) <= MOST_OCTETS) {
            return name;
        }
        int dot = name.lastIndexOf('.');
        String ending = dot > 0 && name.length() - dot <= MOST_ENDING ? name.substring(dot) : "";
        StringBuilder front = new StringBuilder();
        int left = MOST_OCTETS - octets(ending);
        for (int c : name.codePoints().toArray()) {
            int more = octets(Character.toString(c));
            if (more > left) {
                break;
            }
            front.appendCodePoint(c);
            left -= more;
        }
        return trimmed(front.toString()) + ending;
    }

    private static int octets(String text) {
        return text.getBytes(StandardCharsets.UTF_8).length;
    }
}
