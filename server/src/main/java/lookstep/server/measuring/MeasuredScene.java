package lookstep.server.measuring;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import lookstep.server.checks.MeasuredLight;
import lookstep.server.checks.MeasuredLight.Factors;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plates.MeasuredSet;
import lookstep.server.prediction.EmitterPlates;
import lookstep.server.prediction.Sight;
import lookstep.server.prediction.Staging;
import lookstep.simulator.model.colour.Srgb;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.picture.Part;
import lookstep.simulator.model.picture.Plates;
import lookstep.simulator.model.plates.Cast;
import lookstep.simulator.model.plates.CastFinding;
import lookstep.simulator.model.plates.LinearPlates;
import lookstep.simulator.model.scene.Figure;
import lookstep.simulator.model.scene.Scene;
import lookstep.simulator.model.space.Vec3;

/**
 * A set of plates with its people found, and the same by the model beside it.
 *
 * @param plan with every light where the plates have it
 * @param shot whose camera position and people it is; of a stand-in it is still the whole shot
 * @param standIn one person in the middle instead of those of the shot
 * @param plates in linear light, small
 * @param cast the people in them, in the order of the shot
 * @param certainty that these are the people, 0..1
 * @param light what the plates say of each light
 * @param doubts what is uncertain, in words
 */
public record MeasuredScene(
        ShootPlan plan,
        Shot shot,
        boolean standIn,
        LinearPlates plates,
        Cast cast,
        double certainty,
        MeasuredLight light,
        List<String> doubts) {
    /** Enough for outlines; four hundred pixels of a face in a group of five. */
    public static final int WIDTH = 240;

    /** Darker than this in the plate nothing is measured, of white: eight codes of sRGB. */
    private static final double LEAST = 0.0024;

    /** So many times the least is no error of a computation. */
    private static final double PLAIN = 8;

    /** So far around skin its light may lie: a light from behind shows on the very edge. */
    private static final int EDGE_PIXELS = 2;

    private static final int LEAST_PIXELS = 20;

    /** Beyond three stops it is not the light that the plan has. */
    private static final double MOST_FACTOR = 8;

    private static final double SURE = 0.5;

    public MeasuredScene {
        doubts = List.copyOf(doubts);
    }

    /**
     * Looks at a set; takes about a second.
     *
     * @param says when and of what the plates were taken, in words
     * @throws java.util.NoSuchElementException if the plan no longer has the shot or the look
     */
    public static MeasuredScene of(MeasuredSet set, ShootPlan plan, String says) {
        Shot shot = plan.shot(set.shot()).orElseThrow();
        Look look = plan.look(set.look()).taken(set.camera());
        ShootPlan placed = plan.placed(look);
        Scene whole = Staging.scene(placed, shot, look);
        Scene scene = set.standIn() ? Staging.standIn(whole) : whole;
        Camera camera = Staging.camera(placed, shot, look).exact().focused(Camera.ALL_SHARP);
        LinearPlates plates = set.stack().linear(WIDTH);
        EmitterPlates planned = EmitterPlates.of(placed, scene, placed.rig(), camera, WIDTH);
        CastFinding.Found found =
                CastFinding.of(
                        plates, Cast.of(planned.rendered(), plates.width(), plates.height()));
        Sight sight = new Sight(camera, plates.width(), plates.height());
        // A hand's breadth aside people shade each other and the background otherwise.
        EmitterPlates model =
                EmitterPlates.of(placed, asFound(scene, found, sight), placed.rig(), camera, WIDTH);
        List<String> doubts = new ArrayList<>();
        if (found.certainty() < SURE) {
            doubts.add(
                    "the people are not found for certain in the plates (%.0f %%): what is measured on them may be off"
                            .formatted(100 * found.certainty()));
        }
        return new MeasuredScene(
                placed,
                shot,
                set.standIn(),
                plates,
                inShotOrder(found.cast(), scene, sight),
                found.certainty(),
                light(
                        placed.rig(),
                        plates,
                        found.certainty() < SURE ? nobody(found.cast()) : found.cast(),
                        // what is burnt in a plate is that light or more
                        set.stack().burnt(WIDTH),
                        model,
                        says,
                        doubts),
                doubts);
    }

    /** Nothing is measured on people who may be somewhere else. */
    private static Cast nobody(Cast cast) {
        return new Cast(
                cast.width(), cast.height(), cast.figure(), new boolean[cast.skin().length]);
    }

    /** With everybody where they were found; a picture cannot tell how far behind. */
    private static Scene asFound(Scene scene, CastFinding.Found found, Sight sight) {
        List<Figure> figures = scene.figures();
        List<Integer> fromLeft = fromLeft(figures, sight);
        List<Figure> moved = new ArrayList<>(figures);
        for (int n = 0; n < Math.min(fromLeft.size(), found.people().size()); n++) {
            Figure f = figures.get(fromLeft.get(n));
            double aside = found.people().get(n).shiftX() / sight.at(f.face()).perMetreAcross();
            moved.set(fromLeft.get(n), f.at(f.feet().plus(new Vec3(aside, 0, 0))));
        }
        return new Scene(moved, scene.room(), scene.luminaires(), scene.houseLux());
    }

    /** Found people are counted from the left, those of a shot row by row. */
    private static Cast inShotOrder(Cast cast, Scene scene, Sight sight) {
        List<Figure> figures = scene.figures();
        if (cast.people() != figures.size()) {
            return cast;
        }
        List<Integer> fromLeft = fromLeft(figures, sight);
        short[] figure = new short[cast.figure().length];
        for (int p = 0; p < figure.length; p++) {
            int found = cast.figure()[p];
            figure[p] = (short) (found < 0 ? -1 : fromLeft.get(found));
        }
        return new Cast(cast.width(), cast.height(), figure, cast.skin());
    }

    private static List<Integer> fromLeft(List<Figure> figures, Sight sight) {
        return IntStream.range(0, figures.size())
                .boxed()
                .sorted(Comparator.comparingDouble(i -> sight.at(figures.get(i).face()).x()))
                .toList();
    }

    private static MeasuredLight light(
            List<Light> rig,
            LinearPlates plates,
            Cast cast,
            boolean[] unknown,
            EmitterPlates model,
            String says,
            List<String> doubts) {
        Regions measured = Regions.of(plates, cast, model.rendered(), unknown);
        Regions computed =
                Regions.of(
                        model.linear(),
                        Cast.of(model.rendered(), model.linear().width(), model.linear().height()),
                        model.rendered(),
                        unknown);
        double exposure = plates.scale() / model.linear().scale();
        List<Factors> factors = new ArrayList<>();
        int emitter = 1;
        for (Light light : rig) {
            int emitters = light.fixture().emitters().size();
            factors.add(
                    factors(
                            "‘" + light.name() + "’",
                            measured,
                            computed,
                            emitter,
                            emitters,
                            exposure,
                            doubts));
            emitter += emitters;
        }
        return new MeasuredLight(
                says,
                factors,
                factors("the house light", measured, computed, 0, 1, exposure, doubts));
    }

    private static Factors factors(
            String name,
            Regions measured,
            Regions computed,
            int first,
            int count,
            double exposure,
            List<String> doubts) {
        double[] m = measured.of(first, count);
        double[] c = computed.of(first, count);
        double[] factor = new double[m.length];
        // Where it is too dark to be measured it is as on the floor, or as on the people.
        double elsewhere = 1;
        for (int i = 0; i < m.length; i++) {
            double whole = c[i] * exposure;
            elsewhere = m[i] > LEAST && whole > 0 ? m[i] / whole : elsewhere;
        }
        for (int i = 0; i < m.length; i++) {
            double whole = c[i] * exposure;
            // Where much is computed and nothing is seen, it is not as anywhere else.
            factor[i] =
                    m[i] > LEAST && whole > 0
                            ? m[i] / whole
                            : whole > PLAIN * LEAST ? Math.max(m[i], LEAST) / whole : elsewhere;
            if (factor[i] > MOST_FACTOR || factor[i] < 1 / MOST_FACTOR) {
                doubts.add(
                        "%s brings %s %.1f stops %s than computed: is it where the plan has it?"
                                .formatted(
                                        name,
                                        Regions.NAMES.get(i),
                                        Math.abs(Math.log(factor[i]) / Math.log(2)),
                                        factor[i] > 1 ? "more" : "less"));
                factor[i] = Math.min(MOST_FACTOR, Math.max(1 / MOST_FACTOR, factor[i]));
            }
        }
        return new Factors(factor[0], factor[1], factor[2]);
    }

    /**
     * Mean luminance of every plane on people, background and floor; NaN where too little shows.
     */
    private record Regions(List<double[]> planes) {
        static final List<String> NAMES = List.of("the people", "the background", "the floor");

        static Regions of(LinearPlates plates, Cast cast, Plates rendered, boolean[] unknown) {
            int w = plates.width();
            boolean[] skin = around(cast, p -> cast.skin()[p]);
            boolean[] people = around(cast, p -> cast.figure()[p] >= 0);
            List<IntPredicate> where =
                    List.of(
                            p -> skin[p] && !unknown[p],
                            p ->
                                    !people[p]
                                            && !unknown[p]
                                            && shows(rendered, plates, p, Part.BACKGROUND),
                            p ->
                                    !people[p]
                                            && !unknown[p]
                                            && shows(rendered, plates, p, Part.FLOOR));
            List<double[]> all = new ArrayList<>();
            for (int plane = 0; plane <= plates.emitters(); plane++) {
                double[] mean = new double[where.size()];
                for (int i = 0; i < mean.length; i++) {
                    mean[i] = mean(plates.plane(plane), w * plates.height(), where.get(i));
                }
                all.add(mean);
            }
            return new Regions(all);
        }

        /** The pixels that are so, and those next to them. */
        private static boolean[] around(Cast cast, IntPredicate so) {
            boolean[] wide = new boolean[cast.skin().length];
            for (int p = 0; p < wide.length; p++) {
                for (int dy = -EDGE_PIXELS; dy <= EDGE_PIXELS && !wide[p]; dy++) {
                    for (int dx = -EDGE_PIXELS; dx <= EDGE_PIXELS && !wide[p]; dx++) {
                        int x = p % cast.width() + dx;
                        int y = Math.floorDiv(p, cast.width()) + dy;
                        wide[p] =
                                x >= 0
                                        && x < cast.width()
                                        && y >= 0
                                        && y < cast.height()
                                        && so.test(y * cast.width() + x);
                    }
                }
            }
            return wide;
        }

        private static boolean shows(Plates rendered, LinearPlates plates, int p, Part part) {
            int x = (p % plates.width()) * rendered.width() / plates.width();
            int y = Math.floorDiv(p, plates.width()) * rendered.height() / plates.height();
            return rendered.partAt(x, y) == part;
        }

        private static double mean(float[] rgb, int pixels, IntPredicate where) {
            double sum = 0;
            int n = 0;
            for (int p = 0; p < pixels; p++) {
                if (where.test(p)) {
                    sum += Srgb.luminance(rgb[3 * p], rgb[3 * p + 1], rgb[3 * p + 2]);
                    n++;
                }
            }
            return n < LEAST_PIXELS ? Double.NaN : sum / n;
        }

        double[] of(int first, int count) {
            double[] sum = new double[NAMES.size()];
            for (int plane = first; plane < first + count; plane++) {
                for (int i = 0; i < sum.length; i++) {
                    sum[i] += planes.get(plane)[i];
                }
            }
            return sum;
        }
    }
}
