package lookstep.protocols.gdtf;

/** Words of a file, made fit to be shown: they may come from anybody. */
final class Shown {
    private Shown() {}

    /**
     * Without control characters, which a terminal would obey, nor the marks that turn the
     * direction of writing; at most {@link Limits#SHOWN_CHARS} characters.
     */
    static String of(String raw) {
        StringBuilder shown = new StringBuilder();
        int at = 0;
        while (at < raw.length() && shown.length() < Limits.SHOWN_CHARS) {
            int point = raw.codePointAt(at);
            at += Character.charCount(point);
            shown.appendCodePoint(fit(point) ? point : ' ');
        }
        return (shown + (at < raw.length() ? "..." : "")).strip();
    }

    private static boolean fit(int point) {
        return switch (Character.getType(point)) {
            case Character.CONTROL,
                    Character.FORMAT,
                    Character.SURROGATE,
                    Character.LINE_SEPARATOR,
                    Character.PARAGRAPH_SEPARATOR,
                    Character.UNASSIGNED ->
                    false;
            default -> true;
        };
    }
}
