package lookstep.simulator.model.picture;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;

/**
 * An even disc of light on pixels, with the sum 1. Its second moment is that of the true disc, a
 * sixteenth of the squared diameter each way, also where it is hardly larger than a pixel. Kept as
 * the steps along each row, so that laying it down takes a few sums a row whatever its size.
 */
final class Disc {
    /** Diameters are rounded to this, pixels. */
    static final double STEP = 0.25;

    private static final int SUB = 16;
    private static final Map<Integer, Disc> MADE = new ConcurrentHashMap<>();

    /** Rows from top to bottom: how far below the middle. */
    final int[] row;

    /** Where the steps of each row begin; one more at the end. */
    final int[] first;

    /** How far right of the middle each step is. */
    final int[] at;

    /** By how much the light changes there. */
    final double[] step;

    /** How far it reaches from the middle, pixels. */
    final int reach;

    private Disc(double[][] weights) {
        reach = weights.length / 2;
        List<Integer> rows = new ArrayList<>();
        List<Integer> firsts = new ArrayList<>();
        List<Integer> ats = new ArrayList<>();
        List<Double> steps = new ArrayList<>();
        for (int y = 0; y < weights.length; y++) {
            int before = ats.size();
            double last = 0;
            for (int x = 0; x <= weights.length; x++) {
                double here = x < weights.length ? weights[y][x] : 0;
                if (here != last) {
                    ats.add(x - reach);
                    steps.add(here - last);
                }
                last = here;
            }
            if (ats.size() > before) {
                rows.add(y - reach);
                firsts.add(before);
            }
        }
        firsts.add(ats.size());
        row = rows.stream().mapToInt(Integer::intValue).toArray();
        first = firsts.stream().mapToInt(Integer::intValue).toArray();
        at = ats.stream().mapToInt(Integer::intValue).toArray();
        step = steps.stream().mapToDouble(Double::doubleValue).toArray();
    }

    /** The disc of a diameter in pixels, 0 or more. */
    static Disc of(double diameter) {
        return MADE.computeIfAbsent((int) Math.round(diameter / STEP), n -> make(n * STEP));
    }

    private static Disc make(double diameter) {
        double wanted = diameter * diameter / 16;
        // Pixels that a disc covers in part make it larger by a twelfth of a pixel squared.
        double low = 0;
        double high = diameter / 2 + 1;
        if (diameter > 4) {
            low = 2 * Math.sqrt(wanted - 1.0 / 12);
            high = low;
        }
        for (int i = 0; i < 30 && high - low > 1e-4; i++) {
            double radius = (low + high) / 2;
            if (moment(weights(radius)) < wanted) {
                low = radius;
            } else {
                high = radius;
            }
        }
        return new Disc(weights((low + high) / 2));
    }

    private static double[][] weights(double radius) {
        int reach = (int) Math.ceil(Math.max(0, radius - 0.5));
        double[][] w = new double[2 * reach + 1][2 * reach + 1];
        double sum = 0;
        for (int y = -reach; y <= reach; y++) {
            for (int x = -reach; x <= reach; x++) {
                double covered = covered(x, y, radius);
                w[y + reach][x + reach] = covered;
                sum += covered;
            }
        }
        if (sum == 0) {
            return new double[][] {{1}};
        }
        for (double[] line : w) {
            for (int x = 0; x < line.length; x++) {
                line[x] /= sum;
            }
        }
        return w;
    }

    /** Share of a pixel inside the radius. */
    private static double covered(int x, int y, double radius) {
        double middle = Math.hypot(x, y);
        if (middle + 0.71 < radius) {
            return 1;
        } else if (middle - 0.71 > radius) {
            return 0;
        }
        int inside = 0;
        for (int i = 0; i < SUB; i++) {
            for (int j = 0; j < SUB; j++) {
                double px = x + (i + 0.5) / SUB - 0.5;
                double py = y + (j + 0.5) / SUB - 0.5;
                if (px * px + py * py < radius * radius) {
                    inside++;
                }
            }
        }
        return inside / (double) (SUB * SUB);
    }

    private static double moment(double[][] w) {
        int reach = w.length / 2;
        double sum = 0;
        for (double[] line : w) {
            for (int x = -reach; x <= reach; x++) {
                sum += x * x * line[x + reach];
            }
        }
        return sum;
    }
}
