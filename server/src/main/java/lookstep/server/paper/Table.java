package lookstep.server.paper;

import java.util.ArrayList;
import java.util.List;

/** Rows under a heading that stands again on each page. */
final class Table {
    private static final double SIZE = 9;
    private static final double HEAD = 8;
    private static final double LINE = SIZE * Pages.LEADING;
    private static final double GROUP = 11;
    private static final double GAP = 7;
    private static final double PAD = 2.2;

    /** No row is higher than this: what does not fit is cut with an ellipsis. */
    private static final int MOST_LINES = 24;

    private final Pages pages;
    private final List<Column> columns;
    private boolean begun;

    /**
     * One column.
     *
     * @param head what stands above it
     * @param share of the width, against the other columns'
     * @param face what its cells are set in
     */
    record Column(String head, double share, Face face) {
        static Column of(String head, double share) {
            return new Column(head, share, Face.PLAIN);
        }

        static Column bold(String head, double share) {
            return new Column(head, share, Face.BOLD);
        }
    }

    Table(Pages pages, Column... columns) {
        this.pages = pages;
        this.columns = List.of(columns);
    }

    /** One row, a text for each column; a cell wraps. */
    void row(String... cells) {
        List<List<String>> lines = new ArrayList<>();
        int most = 1;
        for (int i = 0; i < columns.size(); i++) {
            List<String> cell = wrapped(columns.get(i).face(), i, cells[i]);
            lines.add(cell);
            most = Math.max(most, cell.size());
        }
        double high = most * LINE + 2 * PAD;
        if (!begun) {
            pages.need(headHeight() + high);
            head();
            begun = true;
        } else if (pages.need(high)) {
            head();
        }
        double x = pages.left();
        for (int i = 0; i < columns.size(); i++) {
            double y = pages.y() + PAD + SIZE * Pages.ASCENT;
            for (String line : lines.get(i)) {
                pages.ink().text(columns.get(i).face(), SIZE, x, y, line);
                y += LINE;
            }
            x += width(i) + GAP;
        }
        pages.down(high);
        rule(0.4, 0.55);
    }

    /** A line of its own over the rows that follow, which stay with it. */
    void group(String text) {
        String shown = pages.letters().fitted(Face.BOLD, GROUP, pages.width(), text);
        double high = GROUP * Pages.LEADING + 9;
        if (!begun) {
            pages.need(headHeight() + high + 4 * LINE);
            head();
            begun = true;
        } else if (pages.need(high + 4 * LINE)) {
            head();
        }
        pages.ink()
                .text(Face.BOLD, GROUP, pages.left(), pages.y() + 6 + GROUP * Pages.ASCENT, shown);
        pages.down(high);
        rule(0.8, 0);
    }

    /** Room under the last row. */
    void end() {
        pages.down(begun ? 7 : 0);
    }

    private List<String> headLines(int column) {
        return pages.letters().wrapped(Face.BOLD, HEAD, width(column), columns.get(column).head());
    }

    private List<String> wrapped(Face face, int column, String text) {
        List<String> all = pages.letters().wrapped(face, SIZE, width(column), text);
        if (all.size() <= MOST_LINES) {
            return all;
        }
        List<String> some = new ArrayList<>(all.subList(0, MOST_LINES - 1));
        some.add(
                pages.letters()
                        .fitted(
                                face,
                                SIZE,
                                width(column),
                                all.get(MOST_LINES - 1) + " " + all.get(MOST_LINES)));
        return some;
    }

    private double headHeight() {
        return headLines() * LINE + 2 * PAD;
    }

    private int headLines() {
        int most = 1;
        for (int i = 0; i < columns.size(); i++) {
            most = Math.max(most, headLines(i).size());
        }
        return most;
    }

    private void head() {
        double x = pages.left();
        double bottom = pages.y() + headHeight();
        for (int i = 0; i < columns.size(); i++) {
            List<String> lines = headLines(i);
            double y = bottom - PAD - lines.size() * LINE + SIZE * Pages.ASCENT;
            for (String line : lines) {
                pages.ink().text(Face.BOLD, HEAD, x, y, line, 0.25);
                y += LINE;
            }
            x += width(i) + GAP;
        }
        pages.down(headHeight());
        rule(0.8, 0);
    }

    private void rule(double thick, double grey) {
        pages.ink()
                .line(
                        pages.left(),
                        pages.y(),
                        pages.left() + pages.width(),
                        pages.y(),
                        thick,
                        grey);
    }

    private double width(int column) {
        double all = columns.stream().mapToDouble(Column::share).sum();
        double room = pages.width() - GAP * (columns.size() - 1);
        return room * columns.get(column).share() / all;
    }
}
