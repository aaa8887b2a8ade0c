package lookstep.server.paper;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.text.Normalizer;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import org.apache.fontbox.ttf.CmapLookup;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.io.RandomAccessReadBuffer;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.pdmodel.font.PDType0Font;

/** The fonts of one document: what of a text they hold, how wide it is, where it breaks. */
final class Lettering {
    /**
     * What stands for a letter that the font does not hold: Unicode's own replacement character.
     */
    static final char STAND_IN = '\uFFFD';

    private static final Pattern NUMBER = Pattern.compile("[-+]?[\\d./]+");
    private static final Pattern UNIT = Pattern.compile("(K|lx|W|A|V|%|m|mm|s|min)[,;.)]?");
    private static final String ELLIPSIS = "…";

    private final Map<Face, PDType0Font> fonts = new EnumMap<>(Face.class);
    private final Map<Face, Map<Integer, Double>> widths = new EnumMap<>(Face.class);
    private final Map<Face, CmapLookup> glyphs = new EnumMap<>(Face.class);

    Lettering(PDDocument document) throws IOException {
        for (Face face : Face.values()) {
            TrueTypeFont font = new TTFParser().parse(new RandomAccessReadBuffer(bytes(face)));
            // Ligatures would be drawn narrower than they are measured.
            font.setEnableGsub(false);
            fonts.put(face, PDType0Font.load(document, font, true));
            widths.put(face, new HashMap<>());
            glyphs.put(face, font.getUnicodeCmapLookup());
        }
    }

    private static ByteArrayInputStream bytes(Face face) throws IOException {
        try (InputStream in = Lettering.class.getResourceAsStream(face.resource())) {
            return new ByteArrayInputStream(in.readAllBytes());
        }
    }

    PDFont font(Face face) {
        return fonts.get(face);
    }

    /**
     * A text as it can be set: on one line, without what steers terminals and the direction of
     * writing, and with a stand-in for each letter that the font does not hold.
     */
    String shown(Face face, String text) {
        StringBuilder out = new StringBuilder();
        ArabicForms.joined(Normalizer.normalize(text, Normalizer.Form.NFC))
                .codePoints()
                .forEach(point -> append(out, face, point));
        String shown = out.toString().strip();
        // A name that cannot be seen is no name.
        return shown.isEmpty() && !text.isBlank() ? String.valueOf(STAND_IN) : shown;
    }

    private void append(StringBuilder out, Face face, int point) {
        if (Character.isWhitespace(point) || Character.isSpaceChar(point)) {
            out.append(' ');
        } else if (!isSilent(point)) {
            boolean held =
                    Character.getType(point) != Character.CONTROL
                            && glyphs.get(face).getGlyphId(point) != 0;
            out.appendCodePoint(held ? point : STAND_IN);
        }
    }

    /** Joiners, marks of direction, and selectors of a variant have no shape of their own. */
    private static boolean isSilent(int point) {
        return Character.getType(point) == Character.FORMAT
                || (point >= 0xFE00 && point <= 0xFE0F)
                || (point >= 0xE0100 && point <= 0xE01EF);
    }

    /** Width in points of a text that came from {@link #shown}. */
    double width(Face face, double size, String shown) {
        double thousandths = 0;
        for (int i = 0; i < shown.length(); i = shown.offsetByCodePoints(i, 1)) {
            thousandths +=
                    widths.get(face)
                            .computeIfAbsent(shown.codePointAt(i), point -> one(face, point));
        }
        return thousandths / 1000 * size;
    }

    private double one(Face face, int point) {
        try {
            return fonts.get(face).getStringWidth(Character.toString(point));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The same on one line of this width, its end replaced by an ellipsis if it is longer. */
    String fitted(Face face, double size, double width, String text) {
        String shown = shown(face, text);
        if (width(face, size, shown) <= width) {
            return shown;
        }
        int end = shown.length();
        while (end > 0) {
            end = shown.offsetByCodePoints(end, -1);
            String shortened = shown.substring(0, end).strip() + ELLIPSIS;
            if (width(face, size, shortened) <= width) {
                return shortened;
            }
        }
        return "";
    }

    /**
     * Broken into lines at spaces; a word that is longer than a line is broken anywhere. At least
     * one line, which may be empty.
     */
    List<String> wrapped(Face face, double size, double width, String text) {
        List<String> lines = new ArrayList<>();
        String line = "";
        for (String word : words(shown(face, text))) {
            String longer = line.isEmpty() ? word : line + " " + word;
            if (width(face, size, longer) <= width) {
                line = longer;
                continue;
            }
            if (!line.isEmpty()) {
                lines.add(line);
            }
            line = word;
            while (width(face, size, line) > width) {
                int cut = most(face, size, width, line);
                lines.add(line.substring(0, cut));
                line = line.substring(cut);
            }
        }
        lines.add(line);
        return lines;
    }

    /** Between spaces; a number keeps its unit. */
    private static List<String> words(String shown) {
        List<String> words = new ArrayList<>();
        for (String word : shown.split(" +", -1)) {
            int before = words.size() - 1;
            boolean unit =
                    before >= 0
                            && UNIT.matcher(word).matches()
                            && NUMBER.matcher(words.get(before)).matches();
            if (unit) {
                words.set(before, words.get(before) + " " + word);
            } else {
                words.add(word);
            }
        }
        return words;
    }

    /** How many chars from the start fit; at least one letter, or there would be no end. */
    private int most(Face face, double size, double width, String word) {
        int cut = word.offsetByCodePoints(0, 1);
        while (cut < word.length()) {
            int next = word.offsetByCodePoints(cut, 1);
            if (width(face, size, word.substring(0, next)) > width) {
                break;
            }
            cut = next;
        }
        return cut;
    }
}
