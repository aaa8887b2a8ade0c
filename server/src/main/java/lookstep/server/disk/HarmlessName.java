package lookstep.server.disk;

import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * A file's name from what a camera gave, which may be anything. It is made harmless rather than
 * refused, since a picture hangs on it: a name in one folder, shown as it is, that no system takes
 * for something else, and that leaves room for more letters.
 */
public final class HarmlessName {
    /** Room is left within the 255 bytes of most file systems for " (2)", a dot and ".part". */
    public static final int MOST_BYTES = 200;

    private static final int MOST_ENDING_BYTES = 16;

    /** Separators, and what is not allowed in names on exFAT and Windows. */
    private static final String AWKWARD = "/\\<>:\"|?*";

    /** Names of devices on Windows, from memory. */
    private static final Pattern DEVICE =
            Pattern.compile("(?i)(con|prn|aux|nul|com\\d|lpt\\d)(\\..*)?");

    private static final int REPLACEMENT_CHARACTER = 0xFFFD;

    private HarmlessName() {}

    /** Empty if no letter is left. */
    public static Optional<String> of(String given) {
        StringBuilder name = new StringBuilder();
        given.codePoints()
                .map(point -> isShown(point) && AWKWARD.indexOf(point) < 0 ? point : '_')
                .forEach(name::appendCodePoint);
        String trimmed = trimmed(name.toString());
        if (trimmed.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(shortened(DEVICE.matcher(trimmed).matches() ? "_" + trimmed : trimmed));
    }

    /** Neither a control, nor half a letter, nor what changes the direction of what follows. */
    public static boolean isShown(int point) {
        return switch (Character.getType(point)) {
            case Character.CONTROL,
                    Character.FORMAT,
                    Character.SURROGATE,
                    Character.UNASSIGNED,
                    Character.PRIVATE_USE,
                    Character.LINE_SEPARATOR,
                    Character.PARAGRAPH_SEPARATOR ->
                    false;
            default -> point != REPLACEMENT_CHARACTER;
        };
    }

    /** A dot first would hide the file; Windows drops dots and spaces at the end. */
    private static String trimmed(String name) {
        int from = 0;
        int to = name.length();
        while (from < to && ". ".indexOf(name.charAt(from)) >= 0) {
            from++;
        }
        while (from < to && ". ".indexOf(name.charAt(to - 1)) >= 0) {
            to--;
        }
        return name.substring(from, to);
    }

    private static String shortened(String name) {
        if (bytes(name) <= MOST_BYTES) {
            return name;
        }
        int dot = name.lastIndexOf('.');
        String ending =
                dot > 0 && bytes(name.substring(dot)) <= MOST_ENDING_BYTES
                        ? name.substring(dot)
                        : "";
        StringBuilder stem = new StringBuilder(name.substring(0, name.length() - ending.length()));
        while (bytes(stem.toString()) + bytes(ending) > MOST_BYTES) {
            stem.setLength(stem.offsetByCodePoints(stem.length(), -1));
        }
        return trimmed(stem.toString()) + ending;
    }

    private static int bytes(String text) {
        return text.getBytes(StandardCharsets.UTF_8).length;
    }
}
