package lookstep.server.paper;

import java.text.Bidi;

/** Letters that are read from the right, put in the order in which a pen going right draws them. */
final class ReadingOrder {
    private static final String BRACKETS = "()[]{}<>«»";

    private ReadingOrder() {}

    /** One line (Unicode UAX 9, by the JDK's own algorithm). */
    static String leftToRight(String line) {
        char[] chars = line.toCharArray();
        if (!Bidi.requiresBidi(chars, 0, chars.length)) {
            return line;
        }
        Bidi bidi = new Bidi(line, Bidi.DIRECTION_DEFAULT_LEFT_TO_RIGHT);
        int runs = bidi.getRunCount();
        byte[] levels = new byte[runs];
        String[] parts = new String[runs];
        for (int i = 0; i < runs; i++) {
            levels[i] = (byte) bidi.getRunLevel(i);
            String part = line.substring(bidi.getRunStart(i), bidi.getRunLimit(i));
            parts[i] = levels[i] % 2 == 0 ? part : mirrored(part);
        }
        Bidi.reorderVisually(levels, 0, parts, 0, runs);
        return String.join("", parts);
    }

    private static String mirrored(String part) {
        StringBuilder out = new StringBuilder();
        part.codePoints()
                .forEach(
                        point -> {
                            int at = BRACKETS.indexOf(point);
                            out.appendCodePoint(at < 0 ? point : BRACKETS.charAt(at ^ 1));
                        });
        return out.reverse().toString();
    }
}
