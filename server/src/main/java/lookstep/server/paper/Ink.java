package lookstep.server.paper;

import java.io.IOException;
import java.io.UncheckedIOException;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.util.Matrix;

/**
 * One page that is drawn on: points from its upper left corner, y downwards. Greys are 0 for black
 * to 1 for white.
 */
final class Ink {
    /** Four cubic curves make a circle with this handle, to 0.03 % of its radius. */
    private static final double CIRCLE_HANDLE = 0.5523;

    private final PDPageContentStream stream;
    private final Lettering letters;
    private final double height;
    private boolean lost;

    Ink(PDDocument document, Lettering letters, PaperSize size) {
        this.letters = letters;
        height = size.heightPoints();
        PDPage page =
                new PDPage(
                        new PDRectangle((float) size.widthPoints(), (float) size.heightPoints()));
        document.addPage(page);
        try {
            stream = new PDPageContentStream(document, page);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Something that the stream does, and that fails only if memory does. */
    private interface Stroke {
        void on(PDPageContentStream stream) throws IOException;
    }

    private void draw(Stroke stroke) {
        try {
            stroke.on(stream);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Whether a stand-in is on the page. */
    boolean lost() {
        return lost;
    }

    void finish() {
        draw(PDPageContentStream::close);
    }

    /** Black text with its baseline at y; see {@link Lettering#shown}. */
    void text(Face face, double size, double x, double y, String text) {
        text(face, size, x, y, text, 0);
    }

    /** The same in a grey. */
    void text(Face face, double size, double x, double y, String text, double grey) {
        String shown = ReadingOrder.leftToRight(letters.shown(face, text));
        lost |= shown.indexOf(Lettering.STAND_IN) >= 0;
        if (shown.isEmpty()) {
            return;
        }
        draw(
                s -> {
                    s.beginText();
                    s.setNonStrokingColor((float) grey);
                    s.setFont(letters.font(face), (float) size);
                    s.setTextMatrix(Matrix.getTranslateInstance((float) x, (float) (height - y)));
                    s.showText(shown);
                    s.endText();
                });
    }

    void line(double x1, double y1, double x2, double y2, double thick, double grey) {
        draw(
                s -> {
                    s.setLineWidth((float) thick);
                    s.setStrokingColor((float) grey);
                    s.moveTo((float) x1, (float) (height - y1));
                    s.lineTo((float) x2, (float) (height - y2));
                    s.stroke();
                });
    }

    void dashed(double x1, double y1, double x2, double y2, double thick, double grey) {
        draw(s -> s.setLineDashPattern(new float[] {3, 2}, 0));
        line(x1, y1, x2, y2, thick, grey);
        draw(s -> s.setLineDashPattern(new float[0], 0));
    }

    /** A rectangle filled with a grey. */
    void filled(double x, double y, double width, double high, double grey) {
        draw(
                s -> {
                    s.setNonStrokingColor((float) grey);
                    s.addRect((float) x, (float) (height - y - high), (float) width, (float) high);
                    s.fill();
                });
    }

    /** Its outline in black. */
    void box(double x, double y, double width, double high, double thick) {
        draw(
                s -> {
                    s.setLineWidth((float) thick);
                    s.setStrokingColor(0f);
                    s.addRect((float) x, (float) (height - y - high), (float) width, (float) high);
                    s.stroke();
                });
    }

    /** Filled with a grey, its outline black. */
    void disc(double x, double y, double radius, double thick, double grey) {
        draw(
                s -> {
                    s.setLineWidth((float) thick);
                    s.setStrokingColor(0f);
                    s.setNonStrokingColor((float) grey);
                    float r = (float) radius;
                    float h = (float) (radius * CIRCLE_HANDLE);
                    float cx = (float) x;
                    float cy = (float) (height - y);
                    s.moveTo(cx + r, cy);
                    s.curveTo(cx + r, cy + h, cx + h, cy + r, cx, cy + r);
                    s.curveTo(cx - h, cy + r, cx - r, cy + h, cx - r, cy);
                    s.curveTo(cx - r, cy - h, cx - h, cy - r, cx, cy - r);
                    s.curveTo(cx + h, cy - r, cx + r, cy - h, cx + r, cy);
                    s.closePath();
                    s.fillAndStroke();
                });
    }

    /** A triangle filled with a grey. */
    void triangle(double x1, double y1, double x2, double y2, double x3, double y3, double grey) {
        draw(
                s -> {
                    s.setNonStrokingColor((float) grey);
                    s.moveTo((float) x1, (float) (height - y1));
                    s.lineTo((float) x2, (float) (height - y2));
                    s.lineTo((float) x3, (float) (height - y3));
                    s.closePath();
                    s.fill();
                });
    }

    /** What is drawn until {@link #unclip} is kept inside. */
    void clip(double x, double y, double width, double high) {
        draw(
                s -> {
                    s.saveGraphicsState();
                    s.addRect((float) x, (float) (height - y - high), (float) width, (float) high);
                    s.clip();
                });
    }

    void unclip() {
        draw(PDPageContentStream::restoreGraphicsState);
    }
}
