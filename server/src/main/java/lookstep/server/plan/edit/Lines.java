package lookstep.server.plan.edit;

import java.util.List;
import java.util.NavigableMap;
import java.util.TreeMap;

/** A text by lines, and where its comments are. */
final class Lines {
    /** From a hash sign to the end of its line. */
    record Comment(int start, int end) {}

    private final String text;
    private final NavigableMap<Integer, Comment> comments = new TreeMap<>();

    Lines(String text, List<Comment> comments) {
        this.text = text;
        comments.forEach(c -> this.comments.put(c.start(), c));
    }

    /** YAML 1.1, 4.2: what ends a line for the parser in use, which YAML 1.2 has shortened. */
    static boolean isBreak(char c) {
        return c == '\n' || c == '\r' || c == '\u0085' || c == '\u2028' || c == '\u2029';
    }

    /** What ends lines in a text. */
    static String lineEnd(String text) {
        int feed = text.indexOf('\n');
        return feed > 0 && text.charAt(feed - 1) == '\r' ? "\r\n" : "\n";
    }

    List<Comment> comments() {
        return List.copyOf(comments.values());
    }

    /** Where the line begins that holds this offset. */
    int start(int at) {
        int i = at;
        while (i > 0 && !isBreak(text.charAt(i - 1))) {
            i--;
        }
        return i == 0 && text.startsWith("\uFEFF") ? 1 : i;
    }

    /** Where the line ends that holds this offset, before its line end. */
    int end(int at) {
        int i = at;
        while (i < text.length() && !isBreak(text.charAt(i))) {
            i++;
        }
        return i;
    }

    /** Where the next line begins, or the end of the text. */
    int next(int at) {
        int i = end(at);
        if (i >= text.length()) {
            return i;
        }
        return text.startsWith("\r\n", i) ? i + 2 : i + 1;
    }

    /** Where the line before this line's start begins; -1 if there is none. */
    int before(int lineStart) {
        if (lineStart <= 0 || !isBreak(text.charAt(lineStart - 1))) {
            return -1;
        }
        int i = lineStart - 1;
        if (i > 0 && text.charAt(i) == '\n' && text.charAt(i - 1) == '\r') {
            i--;
        }
        return start(i);
    }

    boolean isBlank(int from, int to) {
        return firstShown(from, to) == to;
    }

    /** Whether nothing but spaces is on the line that begins here, and there is such a line. */
    boolean isBlankLine(int lineStart) {
        return lineStart < text.length() && isBlank(lineStart, end(lineStart));
    }

    int firstShown(int from, int to) {
        int i = from;
        while (i < to && (text.charAt(i) == ' ' || text.charAt(i) == '\t')) {
            i++;
        }
        return i;
    }

    /** Back over spaces. */
    int trimmed(int at) {
        int i = at;
        while (i > 0 && (text.charAt(i - 1) == ' ' || text.charAt(i - 1) == '\t')) {
            i--;
        }
        return i;
    }

    /** How far in the comment is that has the line that begins here for itself; else -1. */
    int commentColumn(int lineStart) {
        int at = firstShown(lineStart, end(lineStart));
        return comments.containsKey(at) ? at - lineStart : -1;
    }

    boolean hasComment(int from, int to) {
        Integer first = comments.ceilingKey(from);
        return first != null && first < to;
    }

    int column(int at) {
        return at - start(at);
    }
}
