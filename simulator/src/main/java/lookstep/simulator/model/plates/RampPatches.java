package lookstep.simulator.model.plates;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;

/**
 * Small even places of a ramp: the mean of a place has less noise than a pixel, and where nothing
 * changes the mean of the codes is the code of the mean.
 */
final class RampPatches {
    private static final int SIDE = 5;

    /** Codes from which on a place is burnt, or dark enough that the camera has cut it off. */
    private static final int BURNT = 253;

    private static final int DARK = 1;

    /** Standard deviation in codes; a place that is less even lies on an edge. */
    private static final double UNEVEN = 4;

    private static final int ACROSS = 200;
    private static final int BUCKET = 16;
    private static final int EACH_BUCKET = 8;

    private RampPatches() {}

    /**
     * Mean codes of one place.
     *
     * @param codes for [step][channel]; NaN where the place is burnt or dark, in any channel: such
     *     a colour does not fit in the picture, and the camera may have bent all of its channels
     * @param uneven largest standard deviation of any step and channel, codes
     */
    // Arrays in a record: handed on, not compared.
    @SuppressWarnings("ArrayRecordComponent")
    record Patch(double[][] codes, double uneven) {
        /** From the darkest to the brightest step, codes. */
        double span(int channel) {
            double least = Double.POSITIVE_INFINITY;
            double most = Double.NEGATIVE_INFINITY;
            for (double[] step : codes) {
                if (!Double.isNaN(step[channel])) {
                    least = Math.min(least, step[channel]);
                    most = Math.max(most, step[channel]);
                }
            }
            return most - least;
        }

        int steps() {
            int n = 0;
            for (double[] step : codes) {
                n += Double.isNaN(step[0]) ? 0 : 1;
            }
            return n;
        }
    }

    /** Places that three or more steps can be read of, the most even ones first. */
    static List<Patch> of(List<CodedPicture> steps) {
        CodedPicture first = steps.get(0);
        int stride = Math.max(SIDE, first.width() / ACROSS);
        List<Patch> all = new ArrayList<>();
        for (int y = 0; y + SIDE <= first.height(); y += stride) {
            for (int x = 0; x + SIDE <= first.width(); x += stride) {
                Patch patch = read(steps, x, y);
                if (patch.uneven <= UNEVEN && patch.steps() >= 3) {
                    all.add(patch);
                }
            }
        }
        all.sort(Comparator.comparingDouble(Patch::uneven));
        return all;
    }

    /** A few hundred of them, spread over the codes that their darkest and brightest steps have. */
    static List<Patch> spread(List<Patch> patches, int channel) {
        int side = Response.CODES / BUCKET;
        int[] taken = new int[side * side];
        List<Patch> chosen = new ArrayList<>();
        for (Patch p : patches) {
            double span = p.span(channel);
            double least = Double.POSITIVE_INFINITY;
            for (double[] step : p.codes) {
                if (!Double.isNaN(step[channel])) {
                    least = Math.min(least, step[channel]);
                }
            }
            int darkest = (int) (least / BUCKET);
            int brightest = (int) ((least + span) / BUCKET);
            int bucket = darkest * side + brightest;
            if (taken[bucket] < EACH_BUCKET) {
                taken[bucket]++;
                chosen.add(p);
            }
        }
        return chosen;
    }

    private static Patch read(List<CodedPicture> steps, int left, int top) {
        double[][] codes = new double[steps.size()][3];
        double uneven = 0;
        for (int k = 0; k < codes.length; k++) {
            CodedPicture picture = steps.get(k);
            boolean cut = false;
            for (int c = 0; c < 3; c++) {
                double sum = 0;
                double squares = 0;
                for (int y = top; y < top + SIDE; y++) {
                    for (int x = left; x < left + SIDE; x++) {
                        int z = picture.code(x, y, c);
                        cut |= z >= BURNT || z < DARK;
                        sum += z;
                        squares += (double) z * z;
                    }
                }
                double mean = sum / (SIDE * SIDE);
                codes[k][c] = mean;
                uneven =
                        Math.max(
                                uneven,
                                Math.sqrt(Math.max(0, squares / (SIDE * SIDE) - mean * mean)));
            }
            if (cut) {
                Arrays.fill(codes[k], Double.NaN);
            }
        }
        return new Patch(codes, uneven);
    }
}
