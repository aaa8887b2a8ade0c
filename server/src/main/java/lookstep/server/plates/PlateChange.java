package lookstep.server.plates;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.Look;
import lookstep.server.plates.PlateWatch.Later;
import lookstep.server.prediction.Staging;
import lookstep.simulator.model.colour.Srgb;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.picture.Plates;
import lookstep.simulator.model.picture.Renderer;
import lookstep.simulator.model.plates.Cast;
import lookstep.simulator.model.plates.CodedPicture;
import lookstep.simulator.model.plates.LinearPlates;
import lookstep.simulator.model.plates.Lit;
import lookstep.simulator.model.plates.PlateFit;
import lookstep.simulator.model.plates.Registration;
import lookstep.simulator.model.plates.Registration.Shift;

/**
 * Whether a later frame is what the plates say it should be: the camera by registration, then house
 * and lights by a fit of the frame onto the plates, people left out. With other people on the set
 * than when the plates were taken their shadows are others too, so only what is large is believed.
 */
public final class PlateChange {
    /** Steadier than a tripod on a wooden floor need not be: share of the picture. */
    private static final double MOVED = 0.005;

    private static final double CERTAIN = 0.5;
    private static final int WIDTH = 120;

    /** Around people, as they do not stand still: share of the width. */
    private static final double ROOM = 0.02;

    /** Half a stop is seen in any picture (common practice). */
    private static final double STOPS = 0.5;

    private static final double STOPS_WITH_OTHERS = 1;
    private static final double SURE = 0.6;
    private static final double LIKELY = 0.4;

    /** So much is no error of a fit. */
    private static final double PLAIN_STOPS = 1.5;

    /** A change of so much of all light is seen: a fifteenth of a stop. */
    private static final double SEEN_SHARE = 0.05;

    /** Of frames as they should be about 0.02 to 0.03 is left (measured on the simulated set). */
    private static final double UNEXPLAINED = 0.045;

    private static final double SURE_WITH_OTHERS = 0.8;

    private PlateChange() {}

    /** What has changed, in words; empty if nothing has, or it cannot be told. */
    public static Optional<String> seen(Later later) {
        CodedPicture frame = later.frame().picture();
        if (frame.width() != later.set().stack().width()
                || frame.height() != later.set().stack().height()) {
            return Optional.empty();
        }
        boolean others = later.set().standIn() && later.shot().people().size() > 1;
        LinearPlates plates = later.set().stack().linear(WIDTH);
        boolean[] allowed = allowed(later, plates);
        return camera(later, allowed, plates).or(() -> light(later, plates, allowed, others));
    }

    private static Optional<String> camera(Later later, boolean[] allowed, LinearPlates plates) {
        CameraSettings set = later.set().camera();
        CodedPicture wanted =
                CodedPicture.of(
                        later.set()
                                .stack()
                                .picture(
                                        1,
                                        ModelledPlates.flat(later.levels()),
                                        later.frame().scale(set),
                                        later.frame().kelvin(set)));
        CodedPicture frame = later.frame().picture();
        Shift whole = PlateArithmetic.moved(wanted, frame);
        double far = far(whole);
        if (whole.certainty() < CERTAIN || far <= MOVED) {
            return Optional.empty();
        }
        Shift room = Registration.between(wanted, frame, allowed, plates.width(), plates.height());
        boolean peopleAlone = room.certainty() >= CERTAIN && far(room) <= MOVED;
        return !peopleAlone
                ? Optional.of(
                        String.format(
                                Locale.ROOT,
                                "the camera has moved by %.1f %% of the picture since they were"
                                        + " taken",
                                far * 100))
                : Optional.empty();
    }

    private static double far(Shift shift) {
        return Math.max(Math.abs(shift.x()), Math.abs(shift.y()));
    }

    private static Optional<String> light(
            Later later, LinearPlates plates, boolean[] allowed, boolean others) {
        CameraSettings set = later.set().camera();
        List<Integer> lightOf = new ArrayList<>();
        for (int l = 0; l < later.levels().size(); l++) {
            for (int e = 0; e < later.levels().of(l).length; e++) {
                lightOf.add(l);
            }
        }
        Lit should =
                new Lit(
                        1,
                        ModelledPlates.flat(later.levels()),
                        lightOf,
                        later.frame().scale(set),
                        later.frame().kelvin(set));
        PlateFit.Found found =
                PlateFit.of(
                        later.set().stack().linear(later.frame().picture(), WIDTH),
                        plates,
                        should,
                        allowed);
        if (Math.abs(found.exposureStops()) > STOPS) {
            return Optional.of(
                    String.format(
                            Locale.ROOT,
                            "everything is %.1f stops %s than the plates say: is the exposure as the"
                                    + " camera says, and all light as it was?",
                            Math.abs(found.exposureStops()),
                            found.exposureStops() > 0 ? "brighter" : "darker"));
        }
        List<float[]> parts = should.parts(plates);
        double whole = mean(should.picture(plates), allowed);
        Optional<String> one =
                said("the house light", found.house(), others)
                        .filter(w -> seen(parts.get(0), found.house(), allowed, whole));
        for (int l = 0; l < found.lights().size() && one.isEmpty(); l++) {
            PlateFit.Source source = found.lights().get(l);
            float[] part = parts.get(l + 1);
            one =
                    said("‘" + later.plan().rig().get(l).name() + "’", source, others)
                            .filter(
                                    w ->
                                            source.change() != PlateFit.Change.LEVEL
                                                    || seen(part, source, allowed, whole));
        }
        return one.isEmpty() && !others && found.residualShare() > UNEXPLAINED
                ? Optional.of(
                        String.format(
                                Locale.ROOT,
                                "%.0f %% of the light is not as the plates say: was a light moved or"
                                        + " turned, or the camera?",
                                100 * found.residualShare()))
                : one;
    }

    /** What hardly brings anything is known to a stop or two at best, and changes nothing. */
    private static boolean seen(
            float[] part, PlateFit.Source source, boolean[] allowed, double whole) {
        double change = mean(part, allowed) * Math.abs(Math.pow(2, source.stops()) - 1);
        return change > SEEN_SHARE * whole;
    }

    private static double mean(float[] rgb, boolean[] allowed) {
        double sum = 0;
        int n = 0;
        for (int p = 0; p < allowed.length; p++) {
            if (allowed[p]) {
                sum += Srgb.luminance(rgb[3 * p], rgb[3 * p + 1], rgb[3 * p + 2]);
                n++;
            }
        }
        return n == 0 ? 0 : sum / n;
    }

    private static Optional<String> said(String name, PlateFit.Source source, boolean others) {
        double stops = source.stops();
        boolean sure =
                source.certainty() >= (others ? SURE_WITH_OTHERS : SURE)
                        || (!others
                                && source.certainty() >= LIKELY
                                && Math.abs(stops) >= PLAIN_STOPS);
        if (!sure) {
            return Optional.empty();
        }
        if (source.change() == PlateFit.Change.COLOUR && Math.abs(stops) >= PLAIN_STOPS) {
            return Optional.of(brighter(name, stops));
        }
        return switch (source.change()) {
            case NONE, UNKNOWN -> Optional.empty();
            case LEVEL ->
                    Math.abs(stops) < (others ? STOPS_WITH_OTHERS : STOPS)
                            ? Optional.empty()
                            : Optional.of(brighter(name, stops));
            case COLOUR ->
                    others
                            ? Optional.empty()
                            : Optional.of(name + " has another colour than it had");
            case PATTERN ->
                    others
                            ? Optional.empty()
                            : Optional.of(
                                    name
                                            + " falls otherwise than it did: was it moved or turned,"
                                            + " or does something stand before it?");
            case LIT -> Optional.of(name + " is on and should be off");
        };
    }

    private static String brighter(String name, double stops) {
        return String.format(
                Locale.ROOT,
                "%s is %.1f stops %s than it was",
                name,
                Math.abs(stops),
                stops > 0 ? "brighter" : "darker");
    }

    /** Where nobody stands, neither now nor when the plates were taken. */
    private static boolean[] allowed(Later later, LinearPlates plates) {
        Look look = later.plan().look(later.set().look());
        Camera camera = Staging.camera(later.plan(), later.shot(), look).exact();
        Plates rendered =
                Renderer.plates(
                        Staging.scene(later.plan(), later.shot(), look),
                        camera,
                        plates.width(),
                        plates.height());
        Cast cast = Cast.of(rendered, plates.width(), plates.height());
        int room = (int) Math.ceil(ROOM * plates.width());
        boolean[] allowed = new boolean[plates.width() * plates.height()];
        for (int p = 0; p < allowed.length; p++) {
            allowed[p] = free(cast, p, room);
        }
        return allowed;
    }

    private static boolean free(Cast cast, int pixel, int room) {
        int x = pixel % cast.width();
        int y = Math.floorDiv(pixel, cast.width());
        for (int dy = Math.max(-room, -y); dy <= Math.min(room, cast.height() - 1 - y); dy++) {
            for (int dx = Math.max(-room, -x); dx <= Math.min(room, cast.width() - 1 - x); dx++) {
                if (cast.figure()[(y + dy) * cast.width() + x + dx] >= 0) {
                    return false;
                }
            }
        }
        return true;
    }
}
