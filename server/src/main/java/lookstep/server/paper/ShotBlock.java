package lookstep.server.paper;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import lookstep.server.plan.PlanWords;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.simulator.model.scene.Arrangement;

/** One shot of the running order, kept together on a page. */
final class ShotBlock {
    private static final double NUMBER = 34;
    private static final double HANG = 48;
    private static final double SIZE = 10;
    private static final double NAME = 14;
    private static final double SAY = 12;
    private static final double TAG = 8;
    private static final double GAP = 10;

    private final Pages pages;
    private final ShootPlan plan;
    private final Shot shot;
    private final int number;
    private final Double startsAtSeconds;
    private final StandingDrawing drawing;
    private final List<Line> lines = new ArrayList<>();

    /**
     * One line of text.
     *
     * @param above room over it
     * @param word bold in front, or empty
     */
    private record Line(
            Face face, double size, double above, String word, double indent, String text) {
        double high() {
            return above + size * Pages.LEADING;
        }
    }

    /**
     * Gets it ready.
     *
     * @param startsAtSeconds null if nobody estimated it
     */
    ShotBlock(Pages pages, ShootPlan plan, Shot shot, int number, Double startsAtSeconds) {
        this.pages = pages;
        this.plan = plan;
        this.shot = shot;
        this.number = number;
        this.startsAtSeconds = startsAtSeconds;
        drawing = new StandingDrawing(shot);
        collect(pages.width() - NUMBER - GAP - StandingDrawing.WIDTH);
    }

    double high() {
        return Math.max(textHigh(), drawing.high()) + 12;
    }

    private double textHigh() {
        return lines.stream().mapToDouble(Line::high).sum();
    }

    void draw() {
        double text = textHigh();
        double high = high();
        boolean fits = high <= pages.pageHeight();
        pages.need(fits ? high : drawing.high() + 40);
        double top = pages.y();
        Ink ink = pages.ink();
        ink.text(Face.BOLD, number > 99 ? 14 : 18, pages.left(), top + 18, number + "");
        ink.box(pages.left(), top + 26, 13, 13, 1);
        drawing.draw(
                ink,
                pages.letters(),
                pages.left() + pages.width() - StandingDrawing.WIDTH,
                top + 2);
        if (shot.safe()) {
            tag(ink, "SAFE SHOT", pages.left(), top + 44);
        }
        double x = pages.left() + NUMBER;
        for (Line line : lines) {
            // Only a shot that is longer than a page is broken.
            pages.need(line.high());
            double base = pages.y() + line.above() + line.size() * Pages.ASCENT;
            if (!line.word().isEmpty()) {
                pages.ink().text(Face.BOLD, line.size(), x, base, line.word());
            }
            pages.ink().text(line.face(), line.size(), x + line.indent(), base, line.text());
            pages.down(line.high());
        }
        if (fits) {
            pages.down(high - text - 7);
        }
        pages.down(2);
        pages.ink()
                .line(pages.left(), pages.y(), pages.left() + pages.width(), pages.y(), 0.5, 0.4);
        pages.down(5);
    }

    private static void tag(Ink ink, String text, double x, double y) {
        ink.filled(x, y, 28, 22, 0);
        int space = text.indexOf(' ');
        ink.text(Face.BOLD, TAG, x + 4, y + 9, text.substring(0, space), 1);
        ink.text(Face.BOLD, TAG, x + 2.5, y + 19, text.substring(space + 1), 1);
    }

    private void collect(double width) {
        String at = startsAtSeconds == null ? "" : "at about " + clock(startsAtSeconds) + ": ";
        add(Face.BOLD, NAME, 0, "", 0, width, at + shot.name());
        add(
                Face.PLAIN,
                SIZE,
                2.5,
                "look",
                HANG,
                width - HANG,
                shot.look() + ": " + PlanWords.camera(plan.look(shot.look()).camera()));
        people(width);
        if (shot.people().size() > 1) {
            add(
                    "stand",
                    width,
                    PlanWords.arrangement(shot.arrangement())
                            + ", "
                            + n(shot.arrangement().spacingMetres())
                            + " m apart");
        }
        add(
                "camera",
                width,
                "%s mm at %s m, lens %s m high"
                        .formatted(
                                n(shot.lensMillimetres()),
                                n(shot.distanceMetres()),
                                n(shot.cameraHeightMetres())));
        add(
                "frame",
                width,
                shot.framing()
                        + (shot.use().text().isEmpty()
                                ? ""
                                : ", room for words: " + shot.use().text())
                        + ", importance "
                        + shot.importance());
        if (!shot.use().job().isEmpty()) {
            add("job", width, shot.use().job());
        }
        double above = 4;
        for (String say : shot.say()) {
            add(Face.BOLD, SAY, above, "", 0, width, "“" + say + "”");
            above = 0;
        }
    }

    private void people(double width) {
        Arrangement a = shot.arrangement();
        if (a.kind() != Arrangement.Kind.ROWS) {
            String alone = shot.solo() ? ", solo" : "";
            add("people", width, String.join(", ", shot.people()) + alone);
            return;
        }
        int from = 0;
        for (int row = 0; row < a.rows().size(); row++) {
            int to = from + a.rows().get(row);
            String which = row == 0 ? "front row: " : "row " + (row + 1) + ": ";
            add(
                    row == 0 ? "people" : "",
                    width,
                    which + String.join(", ", shot.people().subList(from, to)));
            from = to;
        }
    }

    private void add(String word, double width, String text) {
        add(Face.PLAIN, SIZE, 0, word, HANG, width - HANG, text);
    }

    private void add(
            Face face,
            double size,
            double above,
            String word,
            double indent,
            double width,
            String text) {
        String before = word;
        double room = above;
        for (String line : pages.letters().wrapped(face, size, width, text)) {
            lines.add(new Line(face, size, room, before, indent, line));
            before = "";
            room = 0;
        }
    }

    private static String clock(double seconds) {
        long all = Math.round(seconds);
        return String.format(Locale.ROOT, "%d:%02d", all / 60, all % 60);
    }

    private static String n(double value) {
        return PlanWords.number(value);
    }
}
