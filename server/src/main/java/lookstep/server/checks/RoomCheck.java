package lookstep.server.checks;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import lookstep.server.plan.Light;
import lookstep.simulator.model.light.Luminaire;
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
        Vec3 aim = lamp.aim();
        double now = lamp.position().minus(aim).length();
        double least = LEAST_METRES / now;
        if (keep <= 0 || share(s, main, points, least) > keep) {
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
        Vec3 to = aim.plus(lamp.position().minus(aim).times(low));
        double down = -2 * Words.log2(low);
        numbers.put("lightMetresNow", now)
                .put("lightMetresForDark", now * low)
                .put("stopsToTakeOffTheLight", down);
        return new Mend(
                Words.text(
                        "‘%s’ at %.1f m instead of %.1f m from where it looks, and %s down, leaves"
                                + " the room dark (inverse square); or a grid, or more from above"
                                + " and behind",
                        lamp.name(), now * low, now, Words.stops(down)),
                List.of(new Change(Paths.light(lamp.name(), "position"), Paths.point(to))));
    }

    /**
     * What is left of a lamp's light on the background when it stands at a share of its distance
     * and gives the faces as much as before.
     */
    private static double share(Staged s, int main, List<Vec3> points, double k) {
        Luminaire lamp = s.scene().luminaires().get(main);
        Luminaire moved =
                new Luminaire(
                        lamp.aim().plus(lamp.position().minus(lamp.aim()).times(k)),
                        lamp.aim(),
                        lamp.beamDegrees(),
                        lamp.sizeMetres());
        return ratio(s, moved, points) / ratio(s, lamp, points);
    }

    private static double ratio(Staged s, Luminaire lamp, List<Vec3> points) {
        LampInRoom in = new LampInRoom(lamp, s.scene().room());
        double background =
                points.stream().mapToDouble(p -> in.lux(p, TO_THE_CAMERA)).average().orElse(0);
        double faces =
                s.scene().figures().stream()
                        .mapToDouble(f -> in.lux(f.face(), TO_THE_CAMERA))
                        .average()
                        .orElse(0);
        return background / faces;
    }
}
