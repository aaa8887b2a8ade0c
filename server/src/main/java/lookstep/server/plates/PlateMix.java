package lookstep.server.plates;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.DoubleStream;
import lookstep.protocols.fixture.Reach;
import lookstep.server.look.Photometry;
import lookstep.server.plan.Light;
import lookstep.simulator.model.colour.Mixing;
import lookstep.simulator.model.colour.Planck;
import lookstep.simulator.model.colour.WhiteBalance;
import lookstep.simulator.model.colour.Xyz;

/**
 * What one light gives alone in one plate.
 *
 * @param words {@code warm}, {@code blue with white}; empty for a light of one emitter
 * @param levels of its emitters, 0..1, the brightest at 1
 * @param white whether the camera sees enough of it in every channel to learn from it how it turns
 *     light into codes
 */
// An array in a record: written once, handed on to be read.
@SuppressWarnings("ArrayRecordComponent")
record PlateMix(String words, double[] levels, boolean white) {
    /** A channel that is further below 0 than this share of the brightest would be clipped. */
    private static final double NEGATIVE = -0.01;

    /** Each channel of a plate has at least this share of the brightest. */
    private static final double LEAST_CHANNEL = 0.04;

    /** Of white light every channel has at least this share of the brightest. */
    private static final double WHITE_CHANNEL = 0.15;

    private static final double SAME = 1e-6;
    private static final int HALVINGS = 50;

    /** One for each part that the light can weigh by itself, each seen in every channel. */
    static List<PlateMix> of(Light light, double kelvin) {
        WhiteBalance camera = new WhiteBalance(kelvin);
        List<Xyz> emitters = Photometry.emitters(light);
        List<double[]> parts = parts(light);
        List<PlateMix> mixes = new ArrayList<>();
        for (double[] part : parts) {
            String words = words(light, part);
            if (least(camera, emitters, part) < NEGATIVE) {
                mixes.add(
                        mix(
                                camera,
                                emitters,
                                words + " with white",
                                withWhite(camera, emitters, parts, part)));
            } else {
                mixes.add(mix(camera, emitters, words, part));
            }
        }
        return mixes;
    }

    /** All of the light at the camera's white, as near as its emitters come. */
    static PlateMix whiteOf(Light light, double kelvin) {
        WhiteBalance camera = new WhiteBalance(kelvin);
        List<Xyz> emitters = Photometry.emitters(light);
        return mix(camera, emitters, "white", white(camera, emitters, parts(light)));
    }

    private static PlateMix mix(
            WhiteBalance camera, List<Xyz> emitters, String words, double[] levels) {
        double most = DoubleStream.of(levels).max().orElseThrow();
        double[] full = DoubleStream.of(levels).map(l -> l / most).toArray();
        return new PlateMix(words, full, least(camera, emitters, full) >= WHITE_CHANNEL);
    }

    /** Parts that no sum of the others comes to. */
    private static List<double[]> parts(Light light) {
        int n = light.fixture().emitters().size();
        List<double[]> parts = new ArrayList<>();
        List<double[]> rest = new ArrayList<>();
        for (Reach reach : light.mode().reaches(n)) {
            for (double[] part : reach.parts()) {
                double[] left = part.clone();
                for (double[] known : rest) {
                    double along = dot(left, known);
                    for (int i = 0; i < n; i++) {
                        left[i] -= along * known[i];
                    }
                }
                double length = Math.sqrt(dot(left, left));
                if (length > SAME) {
                    rest.add(DoubleStream.of(left).map(l -> l / length).toArray());
                    parts.add(part);
                }
            }
        }
        return parts;
    }

    private static double dot(double[] one, double[] other) {
        double sum = 0;
        for (int i = 0; i < one.length; i++) {
            sum += one[i] * other[i];
        }
        return sum;
    }

    /** The darkest channel against the brightest. */
    private static double least(WhiteBalance camera, List<Xyz> emitters, double[] levels) {
        double[] rgb = camera.linearSrgb(sum(emitters, levels));
        double most = DoubleStream.of(rgb).max().orElseThrow();
        return DoubleStream.of(rgb).min().orElseThrow() / most;
    }

    private static Xyz sum(List<Xyz> emitters, double[] levels) {
        Xyz sum = Xyz.ZERO;
        for (int i = 0; i < levels.length; i++) {
            sum = sum.plus(emitters.get(i).times(levels[i]));
        }
        return sum;
    }

    /** As little white as lifts every channel clearly above 0. */
    private static double[] withWhite(
            WhiteBalance camera, List<Xyz> emitters, List<double[]> parts, double[] part) {
        double[] white = white(camera, emitters, parts);
        double little = 0;
        double much = 64;
        for (int i = 0; i < HALVINGS; i++) {
            double middle = (little + much) / 2;
            if (least(camera, emitters, added(part, white, middle)) < LEAST_CHANNEL) {
                little = middle;
            } else {
                much = middle;
            }
        }
        return added(part, white, much);
    }

    private static double[] added(double[] part, double[] white, double share) {
        double[] sum = part.clone();
        for (int i = 0; i < sum.length; i++) {
            sum[i] += share * white[i];
        }
        return sum;
    }

    /** The part that is whitest, or what all parts together come nearest to white with. */
    private static double[] white(WhiteBalance camera, List<Xyz> emitters, List<double[]> parts) {
        double[] whitest = parts.get(0);
        for (double[] part : parts) {
            if (least(camera, emitters, part) > least(camera, emitters, whitest)) {
                whitest = part;
            }
        }
        if (least(camera, emitters, whitest) >= WHITE_CHANNEL) {
            return whitest;
        }
        double[] weights =
                Mixing.maximum(
                                parts.stream().map(p -> sum(emitters, p)).toList(),
                                Planck.chromaticity(camera.kelvin()))
                        .levels();
        double[] all = new double[emitters.size()];
        for (int p = 0; p < weights.length; p++) {
            for (int i = 0; i < all.length; i++) {
                all[i] += weights[p] * parts.get(p)[i];
            }
        }
        return all;
    }

    private static String words(Light light, double[] part) {
        if (part.length == 1) {
            return "";
        }
        int strongest = 0;
        int on = 0;
        for (int i = 0; i < part.length; i++) {
            strongest = part[i] > part[strongest] ? i : strongest;
            on += part[i] > SAME ? 1 : 0;
        }
        String name = light.fixture().emitters().get(strongest).name().toLowerCase(Locale.ROOT);
        return on == 1 ? name : "mostly " + name;
    }

    @Override
    public String toString() {
        return words + " " + Arrays.toString(levels);
    }
}
