package lookstep.simulator.model.plates;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

/**
 * Where a figure stands if its outline, shifted and scaled a little, is laid where surfaces change.
 * Immutable.
 */
final class FigurePlace {
    private static final double[] SCALES = {0.95, 1, 1.05};

    /** Of the figure's height: this far to each side it is looked for. */
    private static final double REACH = 0.12;

    /** What the farthest place must be better by, in units of a full edge. */
    private static final double PULL = 0.08;

    /** A difference that counts as a full edge, in units of noise. */
    private static final double FULL = 8;

    private static final int MOST_EDGES = 300;

    final int figure;
    final double shiftX;
    final double shiftY;
    final double scale;

    /** Share of the outline that lies on an edge, 0..1. */
    final double onEdge;

    private final double middleX;
    private final double feetY;

    private FigurePlace(
            int figure,
            double middleX,
            double feetY,
            double shiftX,
            double shiftY,
            double scale,
            double onEdge) {
        this.figure = figure;
        this.middleX = middleX;
        this.feetY = feetY;
        this.shiftX = shiftX;
        this.shiftY = shiftY;
        this.scale = scale;
        this.onEdge = onEdge;
    }

    /** An outline point and which way is out. */
    private record Edge(int x, int y, int outX, int outY) {}

    static FigurePlace of(Cast prior, int figure, LightFeatures features) {
        int w = prior.width();
        int h = prior.height();
        List<Edge> edges = new ArrayList<>();
        int top = h;
        int bottom = 0;
        double sum = 0;
        int n = 0;
        for (int y = 0; y < h; y++) {
            for (int x = 0; x < w; x++) {
                if (prior.figure()[y * w + x] != figure) {
                    continue;
                }
                top = Math.min(top, y);
                bottom = Math.max(bottom, y);
                sum += x;
                n++;
                int outX = out(prior, figure, x + 1, y) - out(prior, figure, x - 1, y);
                int outY = out(prior, figure, x, y + 1) - out(prior, figure, x, y - 1);
                if (outX != 0 || outY != 0) {
                    edges.add(new Edge(x, y, outX, outY));
                }
            }
        }
        int every = edges.size() / MOST_EDGES + 1;
        List<Edge> some =
                IntStream.range(0, edges.size())
                        .filter(i -> i % every == 0)
                        .mapToObj(edges::get)
                        .toList();
        double middle = sum / Math.max(1, n);
        int reach = (int) Math.ceil(REACH * (bottom - top + 1));
        FigurePlace best = new FigurePlace(figure, middle, bottom, 0, 0, 1, 0);
        double most = Double.NEGATIVE_INFINITY;
        for (double scale : SCALES) {
            for (int dy = -reach / 2; dy <= reach / 2; dy++) {
                for (int dx = -reach; dx <= reach; dx++) {
                    double on = edge(some, features, middle, bottom, dx, dy, scale);
                    double far = Math.hypot(dx, 2 * dy) / Math.max(1, reach);
                    double score = on - PULL * far * far - (scale == 1 ? 0 : PULL / 4);
                    if (score > most) {
                        most = score;
                        best = new FigurePlace(figure, middle, bottom, dx, dy, scale, on);
                    }
                }
            }
        }
        return best;
    }

    /** Where the prior has what this place has at x and y: x, y. */
    int[] back(int x, int y) {
        return new int[] {
            (int) Math.round((x - shiftX - middleX) / scale + middleX),
            (int) Math.round((y - shiftY - feetY) / scale + feetY)
        };
    }

    private static int out(Cast prior, int figure, int x, int y) {
        if (x < 0 || y < 0 || x >= prior.width() || y >= prior.height()) {
            return 0;
        }
        return prior.figure()[y * prior.width() + x] == figure ? 0 : 1;
    }

    private static double edge(
            List<Edge> edges,
            LightFeatures features,
            double middleX,
            double feetY,
            int dx,
            int dy,
            double scale) {
        double sum = 0;
        for (Edge e : edges) {
            int x = (int) Math.round((e.x - middleX) * scale + middleX) + dx;
            int y = (int) Math.round((e.y - feetY) * scale + feetY) + dy;
            int inX = x - e.outX;
            int inY = y - e.outY;
            int outX = x + 2 * e.outX;
            int outY = y + 2 * e.outY;
            if (within(features, inX, inY) && within(features, outX, outY)) {
                double square =
                        features.square(inY * features.width + inX, outY * features.width + outX);
                sum += Math.min(1, Math.sqrt(square) / FULL);
            }
        }
        return sum / Math.max(1, edges.size());
    }

    private static boolean within(LightFeatures f, int x, int y) {
        return x >= 0 && y >= 0 && x < f.width && y < f.height;
    }
}
