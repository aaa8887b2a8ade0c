package lookstep.server.ftp;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import lookstep.server.disk.HarmlessName;

/**
 * A file's name out of what a camera sent, which may be anything. The name is made harmless rather
 * than refused, since a picture hangs on it; only ways out of the camera's folder are refused.
 */
final class SentName {
    private static final Pattern SEPARATOR = Pattern.compile("[/\\\\]");

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
        return HarmlessName.of(parts.get(parts.size() - 1));
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
}
