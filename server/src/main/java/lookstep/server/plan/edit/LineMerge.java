package lookstep.server.plan.edit;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Joins two changes of one text, line by line. */
final class LineMerge {
    /** A table of so many cells is looked through in a tenth of a second. */
    private static final long MOST_CELLS = 16_000_000;

    private LineMerge() {}

    /** The text with both changes; empty if they touch. */
    static Optional<String> join(String base, String ours, String theirs) {
        List<String> b = lines(base);
        List<String> o = lines(ours);
        List<String> t = lines(theirs);
        Optional<int[]> inOurs = matches(b, o);
        Optional<int[]> inTheirs = matches(b, t);
        if (inOurs.isEmpty() || inTheirs.isEmpty()) {
            return Optional.empty();
        }
        return join(b, o, t, inOurs.get(), inTheirs.get());
    }

    private static Optional<String> join(
            List<String> b, List<String> o, List<String> t, int[] inOurs, int[] inTheirs) {
        StringBuilder out = new StringBuilder();
        int ib = 0;
        int io = 0;
        int it = 0;
        while (ib < b.size() || io < o.size() || it < t.size()) {
            int next = ib;
            while (next < b.size() && (inOurs[next] < 0 || inTheirs[next] < 0)) {
                next++;
            }
            int nextOurs = next < b.size() ? inOurs[next] : o.size();
            int nextTheirs = next < b.size() ? inTheirs[next] : t.size();
            List<String> was = b.subList(ib, next);
            List<String> mine = o.subList(io, nextOurs);
            List<String> other = t.subList(it, nextTheirs);
            if (mine.equals(was) || mine.equals(other)) {
                other.forEach(out::append);
            } else if (other.equals(was)) {
                mine.forEach(out::append);
            } else {
                return Optional.empty();
            }
            if (next < b.size()) {
                out.append(b.get(next));
            }
            ib = Math.min(next + 1, b.size());
            io = next < b.size() ? nextOurs + 1 : o.size();
            it = next < b.size() ? nextTheirs + 1 : t.size();
        }
        return Optional.of(out.toString());
    }

    /** Lines with their ends. */
    private static List<String> lines(String text) {
        List<String> out = new ArrayList<>();
        int from = 0;
        while (from < text.length()) {
            int feed = text.indexOf('\n', from);
            int to = feed < 0 ? text.length() : feed + 1;
            out.add(text.substring(from, to));
            from = to;
        }
        return out;
    }

    /** For each line of the first its place in the second, or -1; the longest common ones. */
    private static Optional<int[]> matches(List<String> a, List<String> b) {
        int head = 0;
        int shorter = Math.min(a.size(), b.size());
        while (head < shorter && a.get(head).equals(b.get(head))) {
            head++;
        }
        int tail = 0;
        while (tail < shorter - head
                && a.get(a.size() - 1 - tail).equals(b.get(b.size() - 1 - tail))) {
            tail++;
        }
        int rows = a.size() - head - tail;
        int columns = b.size() - head - tail;
        if ((long) (rows + 1) * (columns + 1) > MOST_CELLS) {
            return Optional.empty();
        }
        int[] out = new int[a.size()];
        for (int i = 0; i < a.size(); i++) {
            boolean behind = i >= a.size() - tail;
            out[i] = i < head ? i : behind ? i - a.size() + b.size() : -1;
        }
        middle(a, b, head, rows, columns, out);
        return Optional.of(out);
    }

    private static void middle(
            List<String> a, List<String> b, int head, int rows, int columns, int[] out) {
        int[][] longest = new int[rows + 1][columns + 1];
        for (int i = rows - 1; i >= 0; i--) {
            for (int j = columns - 1; j >= 0; j--) {
                longest[i][j] =
                        a.get(head + i).equals(b.get(head + j))
                                ? longest[i + 1][j + 1] + 1
                                : Math.max(longest[i + 1][j], longest[i][j + 1]);
            }
        }
        int i = 0;
        int j = 0;
        while (i < rows && j < columns) {
            if (a.get(head + i).equals(b.get(head + j))) {
                out[head + i] = head + j;
                i++;
                j++;
            } else if (longest[i + 1][j] >= longest[i][j + 1]) {
                i++;
            } else {
                j++;
            }
        }
    }
}
