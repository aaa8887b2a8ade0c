package lookstep.server.plates;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.BiFunction;
import java.util.stream.IntStream;
import lookstep.server.live.PlateStep;
import lookstep.server.look.RigLevels;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.Light;
import lookstep.simulator.model.optics.Scales;
import lookstep.simulator.model.plates.CodedPicture;
import lookstep.simulator.model.plates.Registration.Motion;
import lookstep.simulator.model.plates.Registration.Shift;

/**
 * Whether a frame shows what its step was to show: held against the frame with the house alone, the
 * frame before, and what the model says that the light should bring. Pure.
 */
final class PlateChecks {
    /** A camera that stands still is steady to a pixel or so of a preview. */
    private static final double MOVED = 0.002;

    /**
     * Share of the width at a corner. Shadows that go with the light look like a turn of 0.0006 in
     * the demo, a turn by a degree like 0.008.
     */
    private static final double TURNED = 0.003;

    /** A turn makes the whole stand out less. */
    private static final double CERTAIN_OF_A_TURN = 0.3;

    private static final double CERTAIN = 0.5;

    /** Less than this share of the change that the model says is no change. */
    private static final double NO_CHANGE = 0.15;

    /** Under this mean (1 is white) nothing can be told from what a light adds. */
    private static final double FAINT = 2e-4;

    /**
     * So much better must the pattern of another light fit, and so well at least. Correlations are
     * compared by Fisher's z, their inverse hyperbolic tangent: near 1 a little is much.
     */
    private static final double CLEARLY = 0.5;

    private static final double FITS = 0.6;
    private static final double MOST_LIKE = 0.995;

    private static final double BURNT = 0.02;

    /** Of the brightest thousandth: faces of one stand-in are no more than that. */
    private static final double DARK = 0.05;

    private static final double WANTED = 0.6;
    private static final double MOST_BRIGHTER = 4;
    private static final double SAME_DIAL = 0.02;
    private static final double SAME_KELVIN = 25;
    private static final double FULL = 0.9;
    private static final double OFF_THE_RAMP_STOPS = 0.5;

    private final ModelledPlates model;
    private final CameraSettings set;
    private final BiFunction<CodedPicture, CodedPicture, Motion> moved;

    /**
     * @param set the camera as it was to be
     * @param moved how far the second picture has moved against the first
     */
    PlateChecks(
            ModelledPlates model,
            CameraSettings set,
            BiFunction<CodedPicture, CodedPicture, Motion> moved) {
        this.model = model;
        this.set = set;
        this.moved = moved;
    }

    /**
     * A frame that was taken, and for which step.
     *
     * @param small as {@link SeenPlate#small}, in the size of the model
     */
    // An array in a record: handed on, not compared.
    @SuppressWarnings("ArrayRecordComponent")
    record Known(PlateStep step, SeenPlate seen, float[] small) {}

    Known known(PlateStep step, SeenPlate seen) {
        return new Known(step, seen, seen.small(model.width(), model.height()));
    }

    /**
     * @param house the frame with the house alone; absent for itself
     * @param before the frame before this one; for the house any other that there is; absent for
     *     the first
     */
    PlateVerdict of(Known frame, Optional<Known> house, Optional<Known> before) {
        if (frame.seen().exif().whiteBalanceAutomatic().orElse(false)) {
            return PlateVerdict.odd(
                    String.format(
                            Locale.ROOT,
                            "white balance is automatic: set it to %.0f K by hand",
                            set.kelvin()));
        }
        if (house.isEmpty()) {
            return houseAlone(frame, before);
        }
        Optional<String> settings = settings(frame, house.get(), "the one with the house only");
        if (settings.isPresent()) {
            return PlateVerdict.useless(settings.get());
        }
        float[] added = added(frame, house.get());
        float[] expected = model.added(frame.step().rig());
        return doubled(frame, before)
                .or(() -> nothing(frame, added, expected))
                .map(PlateVerdict::odd)
                .or(() -> camera(frame, house.get()).map(PlateVerdict::odd))
                .or(() -> swapped(frame.step(), added, expected).map(PlateVerdict::odd))
                .or(() -> burnt(frame, house.get()))
                .orElseGet(() -> dark(frame.step(), added));
    }

    private Optional<String> settings(Known frame, Known other, String called) {
        return size(frame.seen(), other.seen(), called).or(() -> dials(frame.seen(), other.seen()));
    }

    private PlateVerdict houseAlone(Known frame, Optional<Known> other) {
        Optional<String> settings = other.flatMap(o -> settings(frame, o, "the others"));
        if (settings.isPresent()) {
            return PlateVerdict.useless(settings.get());
        }
        return other.flatMap(o -> camera(frame, o))
                .map(PlateVerdict::odd)
                .orElseGet(() -> PlateVerdict.good(doubts(frame)));
    }

    private static String doubts(Known frame) {
        List<String> doubts = new ArrayList<>();
        double burnt = frame.seen().burnt();
        if (burnt > BURNT) {
            doubts.add(
                    "%.0f %% of it is burnt by the house alone: there nothing will be known"
                            .formatted(burnt * 100));
        }
        if (frame.seen().exif().whiteBalanceAutomatic().isEmpty()) {
            doubts.add("the camera does not say whether its white balance is fixed");
        }
        return String.join("; ", doubts);
    }

    private static Optional<String> size(SeenPlate frame, SeenPlate house, String called) {
        CodedPicture a = house.picture();
        CodedPicture b = frame.picture();
        return a.width() == b.width() && a.height() == b.height()
                ? Optional.empty()
                : Optional.of(
                        "it has %d x %d pixels, %s %d x %d: hold the camera the same way, and leave size and format as they were"
                                .formatted(b.width(), b.height(), called, a.width(), a.height()));
    }

    private Optional<String> dials(SeenPlate frame, SeenPlate house) {
        double n = frame.exif().fNumber().orElse(set.fNumber());
        double was = house.exif().fNumber().orElse(set.fNumber());
        if (Math.abs(n / was - 1) > SAME_DIAL) {
            return Optional.of(
                    "%s, and the others have %s: set it back"
                            .formatted(Scales.formatFNumber(n), Scales.formatFNumber(was)));
        }
        double focal = frame.exif().focalMillimetres().orElse(0.0);
        double focalWas = house.exif().focalMillimetres().orElse(focal);
        if (focal > 0 && Math.abs(focal / focalWas - 1) > SAME_DIAL) {
            return Optional.of(
                    String.format(
                            Locale.ROOT,
                            "%.0f mm, and the others have %.0f mm: set the zoom back, or take them all again",
                            focal,
                            focalWas));
        }
        double kelvin = frame.kelvin(set);
        double kelvinWas = house.kelvin(set);
        if (Math.abs(kelvin - kelvinWas) > SAME_KELVIN) {
            return Optional.of(
                    String.format(
                            Locale.ROOT,
                            "%.0f K, and the others have %.0f K: set the white balance to a fixed %.0f K",
                            kelvin,
                            kelvinWas,
                            kelvinWas));
        }
        return Optional.empty();
    }

    /** What the light brought, in the exposure of the frame with the house. */
    private float[] added(Known frame, Known house) {
        float factor = (float) (house.seen().scale(set) / frame.seen().scale(set));
        float[] added = new float[frame.small().length];
        for (int i = 0; i < added.length; i++) {
            added[i] = frame.small()[i] * factor - house.small()[i];
        }
        return added;
    }

    private Optional<String> doubled(Known frame, Optional<Known> before) {
        if (before.isEmpty() || before.get().step().house()) {
            return Optional.empty();
        }
        float[] wanted = model.added(frame.step().rig());
        float[] was = model.added(before.get().step().rig());
        double should = 0;
        double did = 0;
        for (int i = 0; i < wanted.length; i++) {
            should += Math.abs(clipped(wanted[i]) - clipped(was[i]));
            did += Math.abs(frame.small()[i] - before.get().small()[i]);
        }
        return should / wanted.length > FAINT && did < NO_CHANGE * should
                ? Optional.of(
                        "it is the same as the frame before, although the light changed: taken too early, or sent twice")
                : Optional.empty();
    }

    /**
     * Whether a frame of the ramp is as bright as its light says, by how the brightness of others
     * goes with theirs: one that was taken during the fade is not. Nothing is said without two
     * others.
     *
     * @param others frames of the ramp
     */
    Optional<PlateVerdict> ramp(Known frame, Known house, List<Known> others) {
        double at = stops(PlateArithmetic.light(frame.step()));
        List<Known> near =
                others.stream()
                        .filter(o -> brought(o, house) > FAINT)
                        .sorted(
                                Comparator.comparingDouble(
                                        o -> Math.abs(stops(PlateArithmetic.light(o.step())) - at)))
                        .limit(2)
                        .toList();
        if (near.size() < 2 || brought(frame, house) <= FAINT) {
            return Optional.empty();
        }
        double x = stops(PlateArithmetic.light(near.get(0).step()));
        double y = stops(brought(near.get(0), house));
        double slope =
                (stops(brought(near.get(1), house)) - y)
                        / (stops(PlateArithmetic.light(near.get(1).step())) - x);
        double off = stops(brought(frame, house)) - y - slope * (at - x);
        return Math.abs(off) > OFF_THE_RAMP_STOPS
                ? Optional.of(
                        PlateVerdict.odd(
                                String.format(
                                        Locale.ROOT,
                                        "it is %.1f stops %s than its light says: was it taken before the light was steady?",
                                        Math.abs(off),
                                        off > 0 ? "brighter" : "darker")))
                : Optional.empty();
    }

    private double brought(Known frame, Known house) {
        double sum = 0;
        float[] added = added(frame, house);
        for (float one : added) {
            sum += one;
        }
        return sum / added.length;
    }

    private static double stops(double light) {
        return Math.log(light) / Math.log(2);
    }

    private static double clipped(double linear) {
        return Math.min(1, Math.max(0, linear));
    }

    private static Optional<String> nothing(Known frame, float[] added, float[] expected) {
        double did = 0;
        double should = 0;
        for (int i = 0; i < added.length; i++) {
            did += added[i];
            should += clipped(expected[i]);
        }
        return should / added.length > FAINT && did < NO_CHANGE * should
                ? Optional.of(
                        "it shows the house only: taken too early or too late, or ‘%s’ gives no light; look at its lead and its address"
                                .formatted(frame.step().light()))
                : Optional.empty();
    }

    private Optional<String> camera(Known frame, Known other) {
        Motion motion = moved.apply(other.seen().picture(), frame.seen().picture());
        Shift shift = motion.shift();
        double far = Math.max(Math.abs(shift.x()), Math.abs(shift.y()));
        if (shift.certainty() >= CERTAIN && far > MOVED) {
            return Optional.of(
                    String.format(
                            Locale.ROOT,
                            "the camera moved by %.1f %% of the picture: put it back as it was, or give up and take them all again",
                            far * 100));
        }
        return motion.certainty() >= CERTAIN_OF_A_TURN && motion.corner() > TURNED
                ? Optional.of(
                        "the camera has turned or the zoom has moved: put it back as it was, or give up and take them all again")
                : Optional.empty();
    }

    /** By where it is bright: colours are left out, for no two lights are told apart by them. */
    private Optional<String> swapped(PlateStep step, float[] added, float[] expected) {
        if (step.share() > 0 && step.share() < 1) {
            return Optional.empty();
        }
        double own = z(likeness(added, expected));
        String best = "";
        double most = Math.max(own + CLEARLY, z(FITS));
        for (int l = 0; l < model.plan().rig().size(); l++) {
            Light light = model.plan().rig().get(l);
            if (!light.name().equals(step.light())) {
                double other = z(likeness(added, model.added(full(l))));
                if (other > most) {
                    most = other;
                    best = light.name();
                }
            }
        }
        return best.isEmpty()
                ? Optional.empty()
                : Optional.of(
                        "this looks like ‘%s’ and not like ‘%s’: is the address right, and does it stand where the plan has it?"
                                .formatted(best, step.light()));
    }

    private static double z(double correlation) {
        double r = Math.max(-MOST_LIKE, Math.min(MOST_LIKE, correlation));
        return 0.5 * Math.log((1 + r) / (1 - r));
    }

    private RigLevels full(int light) {
        return new RigLevels(
                IntStream.range(0, model.plan().rig().size())
                        .mapToObj(
                                l -> {
                                    double[] levels =
                                            new double
                                                    [model.plan()
                                                            .rig()
                                                            .get(l)
                                                            .fixture()
                                                            .emitters()
                                                            .size()];
                                    Arrays.fill(levels, l == light ? 1 : 0);
                                    return levels;
                                })
                        .toList());
    }

    /** Correlation (-1..1) of the square roots of the light, where no lamp is seen. */
    private double likeness(float[] one, float[] other) {
        double n = 0;
        double a = 0;
        double b = 0;
        double aa = 0;
        double bb = 0;
        double ab = 0;
        for (int i = 0; i < one.length / 3; i++) {
            if (!model.lamp(i)) {
                double x = Math.sqrt(bright(one, i));
                double y = Math.sqrt(bright(other, i));
                n++;
                a += x;
                b += y;
                aa += x * x;
                bb += y * y;
                ab += x * y;
            }
        }
        double spread = (aa - a * a / n) * (bb - b * b / n);
        return spread <= 0 ? 0 : (ab - a * b / n) / Math.sqrt(spread);
    }

    private static double bright(float[] rgb, int pixel) {
        return Math.max(0, rgb[pixel * 3] + rgb[pixel * 3 + 1] + rgb[pixel * 3 + 2]);
    }

    private static Optional<PlateVerdict> burnt(Known frame, Known house) {
        double more = frame.seen().burnt() - house.seen().burnt();
        return more > BURNT
                ? Optional.of(
                        new PlateVerdict(
                                "%.0f %% of it is burnt: asked again with half the light"
                                        .formatted(more * 100),
                                true,
                                0.5,
                                ""))
                : Optional.empty();
    }

    private static PlateVerdict dark(PlateStep step, float[] added) {
        float[] sorted = added.clone();
        Arrays.sort(sorted);
        double brightest = sorted[(int) (sorted.length * 0.999)];
        boolean meantToBeDark = step.share() > 0 && step.share() < 1;
        if (brightest >= DARK || meantToBeDark) {
            return PlateVerdict.good("");
        }
        double level =
                step.levels().stream()
                        .flatMap(l -> l.stream())
                        .mapToDouble(Double::doubleValue)
                        .max()
                        .orElse(1);
        if (level >= FULL) {
            return PlateVerdict.good("even at full it brings little: its noise will be seen");
        }
        double factor =
                Math.min(MOST_BRIGHTER, Math.min(1 / level, WANTED / Math.max(1e-3, brightest)));
        return new PlateVerdict("it is dark: asked again with more light", true, factor, "");
    }
}
