package lookstep.server.plan.file;

import java.util.Collection;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/** How errors quote and suggest. */
final class Words {
    private static final int LONGEST = 40;

    private Words() {}

    /** The text, cut when it is long, on one line. */
    static String brief(String text) {
        String line = text.replaceAll("\\s+", " ");
        return line.length() <= LONGEST ? line : line.substring(0, LONGEST - 1) + "…";
    }

    /** {@code 2} for 2.0, {@code 0.125} for 0.125. */
    static String number(double value) {
        return value == Math.rint(value) && Math.abs(value) < 1e9
                ? String.valueOf((long) value)
                : String.valueOf(value);
    }

    /** {@code 'a', 'b', 'c'}. */
    static String list(Collection<String> words) {
        return words.stream().map(w -> "'" + w + "'").collect(Collectors.joining(", "));
    }

    /** "write 'rim'" if something is near, else what there is. */
    static String suggest(String wrong, Collection<String> known) {
        return nearest(wrong, known)
                .map(n -> "write '" + n + "'")
                .orElseGet(() -> "write one of " + list(known));
    }

    /** The known word that is meant, if one is near enough. */
    static Optional<String> nearest(String wrong, Collection<String> known) {
        String lower = wrong.toLowerCase(Locale.ROOT);
        String best = null;
        int bestEdits = Integer.MAX_VALUE;
        for (String word : known) {
            int allowed = Math.max(1, Math.min(3, Math.max(word.length(), wrong.length()) / 3));
            if (Math.abs(word.length() - wrong.length()) > allowed) {
                continue;
            }
            int edits = edits(lower, word.toLowerCase(Locale.ROOT));
            if (edits <= allowed && edits < bestEdits) {
                best = word;
                bestEdits = edits;
            }
        }
        return Optional.ofNullable(best);
    }

    /** Letters to put in, leave out, replace or swap with their neighbour. */
    static int edits(String a, String b) {
        int[][] d = new int[a.length() + 1][b.length() + 1];
        for (int i = 0; i <= a.length(); i++) {
            d[i][0] = i;
        }
        for (int j = 0; j <= b.length(); j++) {
            d[0][j] = j;
        }
        for (int i = 1; i <= a.length(); i++) {
            for (int j = 1; j <= b.length(); j++) {
                int replace = d[i - 1][j - 1] + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
                d[i][j] = Math.min(replace, 1 + Math.min(d[i - 1][j], d[i][j - 1]));
                if (i > 1
                        && j > 1
                        && a.charAt(i - 1) == b.charAt(j - 2)
                        && a.charAt(i - 2) == b.charAt(j - 1)) {
                    d[i][j] = Math.min(d[i][j], 1 + d[i - 2][j - 2]);
                }
            }
        }
        return d[a.length()][b.length()];
    }
}
