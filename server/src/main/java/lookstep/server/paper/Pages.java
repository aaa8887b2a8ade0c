package lookstep.server.paper;

import java.io.Closeable;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.TreeMap;
import org.apache.pdfbox.pdmodel.PDDocument;

/** The sheets as they fill from top to bottom, with what stands at the foot of each. */
final class Pages implements Closeable {
    /** 14 mm: no printer cuts that off, and a thumb has room. */
    static final double MARGIN = 14 * 72 / 25.4;

    /** Between baselines, of the size of the letters; DejaVu is 1.164 high. */
    static final double LEADING = 1.22;

    /** Of the size of the letters, from the top of the line to its baseline. */
    static final double ASCENT = 0.94;

    private static final double FOOT = 34;
    private static final double FOOT_SIZE = 8;
    private static final DateTimeFormatter TIME =
            DateTimeFormatter.ofPattern("d MMM yyyy, HH:mm", Locale.ENGLISH);

    private final PDDocument document = new PDDocument();
    private final Lettering letters;
    private final Sheet sheet;
    private final List<Ink> inks = new ArrayList<>();
    private double y;

    Pages(Sheet sheet) throws IOException {
        this.sheet = sheet;
        letters = new Lettering(document);
        turn();
    }

    Lettering letters() {
        return letters;
    }

    Ink ink() {
        return inks.get(inks.size() - 1);
    }

    double left() {
        return MARGIN;
    }

    double width() {
        return sheet.size().widthPoints() - 2 * MARGIN;
    }

    /** Where the next thing goes: points from the top. */
    double y() {
        return y;
    }

    /** How high a thing can be at most. */
    double pageHeight() {
        return bottom() - MARGIN;
    }

    private double bottom() {
        return sheet.size().heightPoints() - MARGIN - FOOT;
    }

    void turn() {
        inks.add(new Ink(document, letters, sheet.size()));
        y = MARGIN;
    }

    /** Turns the page unless this much is left of it; true if it did. */
    boolean need(double points) {
        if (y + points <= bottom() || y == MARGIN) {
            return false;
        }
        turn();
        return true;
    }

    void down(double points) {
        y += points;
    }

    /** A heading of a part, with room for what begins under it. */
    void heading(String text, double room) {
        if (y > MARGIN) {
            down(14);
        }
        need(30 + room);
        ink().text(Face.BOLD, 15, left(), y + 15, letters.fitted(Face.BOLD, 15, width(), text));
        down(20);
        ink().line(left(), y, left() + width(), y, 1.2, 0);
        down(7);
    }

    /** A smaller one. */
    void subheading(String text, double room) {
        need(22 + room);
        down(4);
        ink().text(Face.BOLD, 11.5, left(), y + 11, letters.fitted(Face.BOLD, 11.5, width(), text));
        down(17);
    }

    /** A paragraph over the whole width, or indented. */
    void paragraph(Face face, double size, double indent, String text) {
        for (String line : letters.wrapped(face, size, width() - indent, text)) {
            need(size * LEADING);
            ink().text(face, size, left() + indent, y + size * ASCENT, line);
            down(size * LEADING);
        }
    }

    /** A short bold word in front of a paragraph that hangs behind it. */
    void entry(String word, double hang, double size, String text) {
        List<String> lines = letters.wrapped(Face.PLAIN, size, width() - hang, text);
        need(size * LEADING);
        ink().text(Face.BOLD, size, left(), y + size * ASCENT, word);
        for (String line : lines) {
            need(size * LEADING);
            ink().text(Face.PLAIN, size, left() + hang, y + size * ASCENT, line);
            down(size * LEADING);
        }
        down(1.5);
    }

    /** Finishes all pages and writes them. */
    void write(OutputStream out) throws IOException {
        for (int i = 0; i < inks.size(); i++) {
            foot(inks.get(i), i + 1);
            inks.get(i).finish();
        }
        document.getDocumentInformation().setTitle(sheet.plan().title());
        document.getDocumentInformation().setCreator("Lookstep");
        document.getDocumentCatalog().setLanguage("en");
        document.setDocumentId(id());
        document.save(out);
    }

    private void foot(Ink ink, int number) {
        double right = left() + width();
        double base = sheet.size().heightPoints() - MARGIN;
        ink.line(left(), base - 23, right, base - 23, 0.6, 0);
        String page = number + " of " + inks.size();
        double pageWidth = letters.width(Face.BOLD, 11, page);
        ink.text(Face.BOLD, 11, right - pageWidth, base - 11, page);
        double room = width() - pageWidth - 20;
        ink.text(
                Face.BOLD,
                FOOT_SIZE,
                left(),
                base - 13,
                letters.fitted(Face.BOLD, FOOT_SIZE, room, sheet.plan().title()));
        String hash = ", plan " + sheet.shortHash() + ", printed " + TIME.format(sheet.printedAt());
        double hashWidth = letters.width(Face.PLAIN, FOOT_SIZE, hash);
        String file =
                letters.fitted(Face.PLAIN, FOOT_SIZE, room - hashWidth, sheet.planFile()) + hash;
        ink.text(Face.PLAIN, FOOT_SIZE, left(), base - 2, file);
        if (ink.lost()) {
            ink.text(
                    Face.PLAIN,
                    FOOT_SIZE,
                    left(),
                    base - 27,
                    Lettering.STAND_IN
                            + " stands for letters that this sheet's font does not hold: the plan"
                            + " file and the pages of Lookstep show them.");
        }
    }

    /** What PDF tells two files by (ISO 32000-1, 14.4): of what is printed, not of the moment. */
    private long id() {
        String printed =
                String.join(
                        "\n",
                        sheet.planHash(),
                        sheet.planFile(),
                        sheet.printedAt().toString(),
                        sheet.size().name(),
                        sheet.order().toString(),
                        new TreeMap<>(sheet.startsAtSeconds()).toString(),
                        sheet.remarks().toString());
        try {
            byte[] digest =
                    MessageDigest.getInstance("SHA-256")
                            .digest(printed.getBytes(StandardCharsets.UTF_8));
            return ByteBuffer.wrap(digest).getLong();
        } catch (NoSuchAlgorithmException everyJavaHasIt) {
            throw new IllegalStateException(everyJavaHasIt);
        }
    }

    @Override
    public void close() throws IOException {
        document.close();
    }
}
