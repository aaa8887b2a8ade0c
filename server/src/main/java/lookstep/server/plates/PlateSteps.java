package lookstep.server.plates;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import lookstep.server.live.PlateStep;
import lookstep.server.look.RigLevels;
import lookstep.server.look.RigPackets;
import lookstep.server.plan.Light;
import lookstep.server.plan.ShootPlan;

/**
 * Which frames are taken, and with how much light: the house alone, each emitter of each light
 * alone, and one light at shares of its level, from which the camera's way from light to codes is
 * found. Pure.
 */
public final class PlateSteps {
    /** The brightest that is not a lamp comes to this share of white, by the model. */
    static final double BRIGHTEST = 0.7;

    /** What the ramp may reach. */
    private static final double RAMP_BRIGHTEST = 0.95;

    /** So many of the pixels may be brighter: a glint is not worth dark plates. */
    private static final double GLINTS = 0.005;

    /** Shares of its level at which one light is taken too, the brightest first. */
    private static final List<Integer> RAMP = List.of(2, 4, 8, 16);

    private static final double NO_LIGHT = 1e-9;

    private final ModelledPlates model;
    private final List<Light> rig;
    private final double kelvin;
    private final List<PlateStep> steps = new ArrayList<>();

    /** A plate that the ramp could be of. */
    // An array in a record: handed on, not compared.
    @SuppressWarnings("ArrayRecordComponent")
    private record Candidate(int step, int light, double[] levels, double brings) {}

    private PlateSteps(ModelledPlates model, double kelvin) {
        this.model = model;
        rig = model.plan().rig();
        this.kelvin = kelvin;
    }

    /**
     * In the order to be taken.
     *
     * @param model what each light will bring
     * @param kelvin the camera's white balance
     */
    public static List<PlateStep> of(ModelledPlates model, double kelvin) {
        return new PlateSteps(model, kelvin).all();
    }

    /**
     * How many stops the brightest plate of white lies under what the ramp may reach, with all
     * lights at full.
     */
    static double stopsUnder(ModelledPlates model, double kelvin) {
        PlateSteps steps = new PlateSteps(model, kelvin);
        steps.all();
        double brightest =
                steps.steps.stream()
                        .filter(s -> s.share() == 1)
                        .mapToDouble(s -> steps.brightest(steps.model.added(s.rig())))
                        .max()
                        .orElse(1);
        return brightest > 0 ? Math.log(RAMP_BRIGHTEST / brightest) / Math.log(2) : 0;
    }

    /** How many frames that will be. */
    public static int count(ShootPlan plan, double kelvin) {
        List<PlateMix> mixes =
                plan.rig().stream().flatMap(l -> PlateMix.of(l, kelvin).stream()).toList();
        boolean white = mixes.stream().anyMatch(PlateMix::white);
        return 1 + mixes.size() + RAMP.size() + (white ? 0 : 1);
    }

    private List<PlateStep> all() {
        steps.add(new PlateStep("house only", "", 0, listed(dark())));
        Candidate best = null;
        for (int l = 0; l < rig.size(); l++) {
            for (PlateMix mix : PlateMix.of(rig.get(l), kelvin)) {
                Candidate one = plate(l, mix);
                if (mix.white() && (best == null || one.brings() > best.brings())) {
                    best = one;
                }
            }
        }
        ramp(best == null ? brightestWhite() : best);
        return List.copyOf(steps);
    }

    private Candidate plate(int light, PlateMix mix) {
        double[] levels = level(light, mix.levels());
        steps.add(
                new PlateStep(
                        name(light, mix.words()) + " alone",
                        rig.get(light).name(),
                        0,
                        listed(alone(light, levels))));
        return new Candidate(steps.size() - 1, light, levels, brings(light, levels));
    }

    private String name(int light, String words) {
        return "‘" + rig.get(light).name() + "’" + (words.isEmpty() ? "" : " " + words);
    }

    /** A rig of colours only: all of one light together. */
    private Candidate brightestWhite() {
        Candidate best = null;
        PlateMix of = null;
        for (int l = 0; l < rig.size(); l++) {
            PlateMix mix = PlateMix.whiteOf(rig.get(l), kelvin);
            double[] levels = level(l, mix.levels());
            double brings = brings(l, levels);
            if (best == null || brings > best.brings()) {
                best = new Candidate(steps.size(), l, levels, brings);
                of = mix;
            }
        }
        plate(best.light(), of);
        return best;
    }

    private void ramp(Candidate top) {
        PlateStep of = steps.get(top.step());
        // The ramp goes higher than other plates: it shows what the camera does near white.
        double[] highest = higher(top);
        steps.set(
                top.step(),
                new PlateStep(of.name(), of.light(), 1, listed(alone(top.light(), highest))));
        double full = DoubleStream.of(highest).sum();
        double least = full;
        for (int part : RAMP) {
            double[] levels =
                    RigPackets.throughSlots(
                            rig.get(top.light()),
                            DoubleStream.of(highest).map(l -> l / part).toArray());
            double sum = DoubleStream.of(levels).sum();
            // slots may be too coarse for so little
            if (sum > NO_LIGHT && sum < least) {
                least = sum;
                steps.add(
                        new PlateStep(
                                of.name().replaceFirst(" alone$", "") + " at 1/" + part,
                                of.light(),
                                sum / full,
                                listed(alone(top.light(), levels))));
            }
        }
    }

    /**
     * How well a light serves the ramp: the brighter it makes something, the more of the camera's
     * way from light to codes is seen; of equals the one that lights more.
     */
    private double brings(int light, double[] levels) {
        float[] added = model.added(new RigLevels(alone(light, levels)));
        return brightest(added) + DoubleStream.of(seen(added)).average().orElse(0);
    }

    private double brightest(float[] added) {
        double[] seen = seen(added);
        return seen.length == 0 ? 0 : seen[(int) (seen.length * (1 - GLINTS))];
    }

    /** What is no lamp, from dark to bright. */
    private double[] seen(float[] added) {
        return IntStream.range(0, added.length)
                .filter(i -> !model.lamp(i / 3))
                .mapToDouble(i -> Math.min(1, Math.max(0, added[i])))
                .sorted()
                .toArray();
    }

    /** As bright as can be without burning, through the light's own slots. */
    private double[] level(int light, double[] mix) {
        double share = share(light, mix, BRIGHTEST);
        double[] levels = through(light, mix, share);
        while (share < 1 && DoubleStream.of(levels).max().orElseThrow() <= NO_LIGHT) {
            share = Math.min(1, share * 2);
            levels = through(light, mix, share);
        }
        return levels;
    }

    private double[] through(int light, double[] mix, double share) {
        return RigPackets.throughSlots(
                rig.get(light), DoubleStream.of(mix).map(l -> l * share).toArray());
    }

    private double[] higher(Candidate top) {
        double most = DoubleStream.of(top.levels()).max().orElseThrow();
        double[] mix = DoubleStream.of(top.levels()).map(l -> l / most).toArray();
        double share = Math.max(most, share(top.light(), mix, RAMP_BRIGHTEST));
        return through(top.light(), mix, share);
    }

    private double share(int light, double[] mix, double limit) {
        float[] house = model.house();
        float[] full = model.added(new RigLevels(alone(light, mix)));
        double[] fits =
                IntStream.range(0, full.length)
                        .filter(i -> !model.lamp(i / 3) && full[i] > NO_LIGHT)
                        .filter(i -> house[i] < limit)
                        .mapToDouble(i -> (limit - house[i]) / full[i])
                        .sorted()
                        .toArray();
        if (fits.length == 0) {
            return 1;
        }
        return Math.min(1, fits[(int) (fits.length * GLINTS)]);
    }

    private List<double[]> dark() {
        return rig.stream().map(l -> new double[l.fixture().emitters().size()]).toList();
    }

    private List<double[]> alone(int light, double[] levels) {
        List<double[]> all = new ArrayList<>(dark());
        all.set(light, levels);
        return all;
    }

    private static List<List<Double>> listed(List<double[]> levels) {
        return levels.stream().map(l -> Arrays.stream(l).boxed().toList()).toList();
    }
}
