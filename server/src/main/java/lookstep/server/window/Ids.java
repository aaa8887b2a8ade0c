package lookstep.server.window;

import java.text.Normalizer;
import java.util.Locale;
import java.util.Set;

/** Ids for shots that are made up on the set. */
final class Ids {
    private static final int LONGEST = 50;

    private Ids() {}

    /** Lower case, accents gone, everything else a hyphen; never empty. */
    static String slug(String name) {
        String plain =
                Normalizer.normalize(name, Normalizer.Form.NFD)
                        .replaceAll("\\p{M}+", "")
                        .toLowerCase(Locale.ROOT)
                        .replaceAll("[^a-z0-9]+", "-")
                        .replaceAll("^-|-$", "");
        return plain.isEmpty() ? "x" : plain.substring(0, Math.min(LONGEST, plain.length()));
    }

    /** This id, with a number behind it if it is taken. */
    static String free(String id, Set<String> taken) {
        String free = id;
        for (int n = 2; taken.contains(free); n++) {
            free = id + "-" + n;
        }
        return free;
    }
}
