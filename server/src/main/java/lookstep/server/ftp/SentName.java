package lookstep.server.ftp;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * A file's name out of what a camera sent, which may be anything. The name is made harmless rather
 * than refused, since a picture hangs on it; only ways out of the camera's folder are refused.
 */
final class SentName {
    /** Room is left within the 255 bytes of most file systems for " (2)", a dot and ".part". */
    private static final int MOST_BYTES = 200;

    private static final int MOST_ENDING_BYTES = 16;
    private static final Pattern SEPARATOR = Pattern.compile("[/\\\\]");

    /** Not allowed in names on exFAT and Windows. */
    private static final String AWKWARD = "<>:\"|?*";

    /** Names of devices on Windows, from memory. */
    private static final Pattern DEVICE =
            Pattern.compile("(?i)(con|prn|aux|nul|com\\d|lpt\\d)(\\..*)?");

    /** Endings of names under which files lie until they are renamed: common practice. */
    private static final Set<String> TEMPORARY =
            Set.of("tmp", "temp", "part", "partial", "filepart", "upload");

    private SentName() {}

    /**
     * The last part of a path, made harmless.
     *
     * @return empty if it leads upwards, or there is no name in it
     */
    static Optional<String> of(String path) {
        List<String> parts = List.of(SEPARATOR.split(path, -1));
        if (parts.contains("..")) {
            return Optional.empty();
        }
        return harmless(parts.get(parts.size() - 1));
    }

    /** Whether the whole path stays below where it begins. */
    static boolean leadsUp(String path) {
        return List.of(SEPARATOR.split(path, -1)).contains("..");
    }

    /** Whether a file of this name is meant to be renamed when it is whole. */
    static boolean isTemporary(String path) {
        String name = path.substring(Math.max(path.lastIndexOf('/'), path.lastIndexOf('\\')) + 1);
        String ending = name.substring(name.lastIndexOf('.') + 1).toLowerCase(Locale.ROOT);
        return name.startsWith(".") || name.endsWith("~") || TEMPORARY.contains(ending);
    }

    private static Optional<String> harmless(String sent) {
        StringBuilder name = new StringBuilder();
        sent.codePoints()
                .map(point -> isAwkward(point) ? '_' : point)
                .forEach(name::appendCodePoint);
        // Windows drops dots and spaces at the end; a dot first would hide the file.
        while (!name.isEmpty() && ". ".indexOf(name.charAt(name.length() - 1)) >= 0) {
            name.setLength(name.length() - 1);
        }
        while (!name.isEmpty() && ". ".indexOf(name.charAt(0)) >= 0) {
            name.deleteCharAt(0);
        }
        if (name.isEmpty()) {
            return Optional.empty();
        }
        if (DEVICE.matcher(name).matches()) {
            name.insert(0, '_');
        }
        return Optional.of(shortened(name.toString()));
    }

    /** Control characters, marks that turn the direction of writing, halves of a character. */
    private static boolean isAwkward(int point) {
        return switch (Character.getType(point)) {
            case Character.CONTROL,
                    Character.FORMAT,
                    Character.SURROGATE,
                    Character.UNASSIGNED,
                    Character.PRIVATE_USE,
                    Character.LINE_SEPARATOR,
                    Character.PARAGRAPH_SEPARATOR ->
                    true;
            default -> AWKWARD.indexOf(point) >= 0 || point == 0xFFFD;
        };
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
        return stem + ending;
    }

    private static int bytes(String text) {
        return text.getBytes(StandardCharsets.UTF_8).length;
    }
}
