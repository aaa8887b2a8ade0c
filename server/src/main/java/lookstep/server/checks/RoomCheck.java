package lookstep.server.checks;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import lookstep.server.look.LookLevels;
import lookstep.server.look.Photometry;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.Placing;
import lookstep.simulator.model.scene.LampInRoom;
import lookstep.simulator.model.space.Vec3;

/**
 * Whether the room goes dark: how light the background comes out where it is seen, against a grey
 * card. Four stops under one, zone I, it is black with a trace of tone (common practice). All
 * lights burn on while the shutter is open, so a shorter time takes as much from the people as from
 * the room: only where the light falls makes a difference.
 */
final class RoomCheck {
    static final double DARK_STOPS = -4;
    private static final double GREY = 0.18;
    private static final Vec3 TO_THE_CAMERA = new Vec3(0, -1, 0);

    /** Closer to a lamp than this nobody poses (figure of our own). */
    private static final double LEAST_METRES = 0.8;

    /** A click of a camera dial: more than that the faces are not to change. */
    private static final double SAME_STOPS = 1 / 3.0;

    private RoomCheck() {}

    static List<Finding> of(Staged s) {
        SeenLight light = new SeenLight(s);
        List<double[]> seen = new ArrayList<>();
        List<Vec3> points = new ArrayList<>();
        look(s, light, seen, points);
        if (seen.isEmpty()) {
            return List.of();
        }
        double[] each = mean(seen);
        double background = Arrays.stream(each).sum();
        double face =
                s.faces().stream().mapToDouble(FaceLight::lux).average().orElse(0)
                        * lookstep.simulator.model.optics.Exposure.scale(s.camera());
        double tone = Words.log2(background / GREY);
        Numbers numbers =
                new Numbers()
                        .put("backgroundStopsFromGrey", tone)
                        .put("darkFromStops", DARK_STOPS)
                        .put(
                                "faceLightOverBackgroundToneStops",
                                Words.log2(face * GREY / background));
        int main = 0;
        for (int i = 0; i < each.length; i++) {
            numbers.put("share " + name(s, i), background > 0 ? each[i] / background : 0);
            main = each[i] > each[main] ? i : main;
        }
        if (!(tone > DARK_STOPS)) {
            return List.of(
                    finding(
                            s,
                            Weight.GOOD,
                            (background > 0 ? Words.stops(tone) + " under" : "far under")
                                    + " a grey card, dark",
                            numbers,
                            Optional.empty()));
        }
        double over = tone - DARK_STOPS;
        return List.of(
                finding(
                        s,
                        Weight.LOOK,
                        Words.text(
                                "the background comes out %s a grey card and is seen, %s too light to"
                                        + " be dark; most of it (%s) is %s",
                                Words.overUnder(tone),
                                Words.stops(over),
                                Words.percent(each[main] / background),
                                name(s, main)),
                        numbers,
                        Optional.of(mend(s, each, main, points, numbers))));
    }

    private static Finding finding(
            Staged s, Weight weight, String says, Numbers numbers, Optional<Mend> mend) {
        return new Finding(Kind.ROOM, weight, Subject.shot(s), says, numbers.all(), mend);
    }

    private static String name(Staged s, int lamp) {
        return lamp < s.sent().size()
                ? "‘" + s.plan().rig().get(lamp).name() + "’"
                : "the house light";
    }

    /** The far wall where nobody stands before it, on a grid over the picture. */
    private static void look(Staged s, SeenLight light, List<double[]> seen, List<Vec3> points) {
        Frame frame = Frame.of(s);
        for (int i = 0; i < 12; i++) {
            for (int j = 0; j < 8; j++) {
                double x = (2 * (i + 0.5) / 12 - 1) * frame.halfWidth();
                double y = (2 * (j + 0.5) / 8 - 1) * frame.halfHeight();
                Vec3 d =
                        frame.forward()
                                .plus(frame.right().times(x))
                                .plus(frame.up().times(y))
                                .unit();
                SeenLight.Wall wall = SeenLight.Wall.met(s.scene().room(), frame.eye(), d);
                if (wall.background() && light.shade().met(frame.eye(), d, 0, -1) < 0) {
                    seen.add(light.room(frame.eye(), d));
                    points.add(wall.point());
                }
            }
        }
    }

    private static double[] mean(List<double[]> all) {
        double[] sum = new double[all.get(0).length];
        for (double[] one : all) {
            for (int i = 0; i < sum.length; i++) {
                sum[i] += one[i] / all.size();
            }
        }
        return sum;
    }

    private static Mend mend(
            Staged s, double[] each, int main, List<Vec3> points, Numbers numbers) {
        if (main == s.sent().size()) {
            return Mend.words(
                    "turn the house light off or down, or bring the lights closer and stop down");
        }
        Light lamp = s.plan().rig().get(main);
        if (lamp.position().y() > 0) {
            return Mend.words(
                    "shade ‘"
                            + lamp.name()
                            + "’ from the background with a grid or flags, or aim it lower");
        }
        double others = Arrays.stream(each).sum() - each[main];
        double limit = GREY * Math.pow(2, DARK_STOPS);
        double keep = (limit - others) / each[main];
        double now = lamp.position().minus(lamp.aim()).length();
        double least = LEAST_METRES / now;
        if (keep <= 0 || !(share(s, main, points, least) <= keep)) {
            return Mend.words(
                    Words.text(
                            "bringing ‘%s’ closer does not do it alone: put a grid on it, set it"
                                    + " higher and more from the side, or move the people away from"
                                    + " the background",
                            lamp.name()));
        }
        double low = least;
        double high = 1;
        for (int i = 0; i < 30; i++) {
            double middle = (low + high) / 2;
            if (share(s, main, points, middle) > keep) {
                high = middle;
            } else {
                low = middle;
            }
        }
        Light closer = closer(lamp, low);
        double down = -Words.log2(turnedDown(lamp, closer));
        double faces = Words.log2(faces(s, in(s, closer)) / faces(s, in(s, lamp))) - down;
        numbers.put("lightMetresNow", now)
                .put("lightMetresForDark", now * low)
                .put("stopsToTakeOffTheLight", down)
                .put("facesChangeStops", faces);
        return new Mend(
                Words.text(
                        "‘%s’ at %.1f m instead of %.1f m from where it looks, with as much light as"
                                + " before in the middle of the nearest row (%s down; what is asked"
                                + " in lux or stops follows), leaves the room dark (inverse"
                                + " square); or a grid, or more from above and behind",
                        lamp.name(), now * low, now, Words.stops(down)),
                Math.abs(faces) <= SAME_STOPS ? changes(s, lamp, closer) : List.of());
    }

    /**
     * The point, and the percents of all looks that have the light there; lux and stops are
     * measured at the people and stay. None where the rig does not say where it stands, or where it
     * cannot be set so low.
     */
    private static List<Change> changes(Staged s, Light lamp, Light closer) {
        if (!WhereItStands.asTheRigHasIt(s.plan(), s.look(), lamp.name())) {
            return List.of();
        }
        List<Change> all = new ArrayList<>();
        all.add(new Change(Paths.light(lamp.name(), "position"), Paths.point(closer.position())));
        double floor = 100 * lamp.mode().floor(lamp.fixture().curve());
        for (Look look : s.plan().looks()) {
            Look.Setting setting = look.lights().get(lamp.name());
            if (setting == null
                    || look.moved().containsKey(lamp.name())
                    || !(setting.level() instanceof Look.Level.Percent p)
                    || p.percent() == 0) {
                continue;
            }
            double percent = Math.round(p.percent() * turnedDown(lamp, closer) * 100) / 100.0;
            if (percent < floor) {
                return List.of();
            }
            all.add(new Change(Paths.setting(look.name(), lamp.name(), "percent"), percent));
        }
        return all;
    }

    /** At a share of the distance from where it looks, to centimetres as a file would have it. */
    private static Light closer(Light lamp, double k) {
        Vec3 to = lamp.aim().plus(lamp.position().minus(lamp.aim()).times(k));
        List<Double> p = Paths.point(to);
        return lamp.placed(new Placing(new Vec3(p.get(0), p.get(1), p.get(2)), lamp.aim()));
    }

    /** The share of its candela that gives as much as before where stops are measured. */
    private static double turnedDown(Light lamp, Light closer) {
        return LookLevels.luxAtSubject(lamp, 1) / LookLevels.luxAtSubject(closer, 1);
    }

    /** What is left of a lamp's light on the background when it is closer and turned down. */
    private static double share(Staged s, int main, List<Vec3> points, double k) {
        Light lamp = s.plan().rig().get(main);
        Light closer = closer(lamp, k);
        return background(in(s, closer), points)
                / background(in(s, lamp), points)
                * turnedDown(lamp, closer);
    }

    private static LampInRoom in(Staged s, Light lamp) {
        return new LampInRoom(Photometry.luminaire(lamp), s.scene().room());
    }

    private static double background(LampInRoom in, List<Vec3> points) {
        return points.stream().mapToDouble(p -> in.lux(p, TO_THE_CAMERA)).average().orElse(0);
    }

    private static double faces(Staged s, LampInRoom in) {
        return s.scene().figures().stream()
                .mapToDouble(f -> in.lux(f.face(), TO_THE_CAMERA))
                .average()
                .orElse(0);
    }
}
