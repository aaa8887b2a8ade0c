package lookstep.server.checks;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import lookstep.simulator.model.scene.Figure;
import lookstep.simulator.model.scene.Finish;
import lookstep.simulator.model.scene.Reflectance;
import lookstep.simulator.model.space.Vec3;

/**
 * The outline of one person as the camera sees it, sampled every five centimetres up both sides:
 * how light its edge is against what is behind. At an outline the surface is seen edge-on, so its
 * normal lies across the look; the brightest within three pixels of a picture 720 pixels wide is
 * what the eye takes for the edge.
 *
 * @param inside luminance of the edge, for each sample from each lamp and last the house
 * @param behind the same of what is behind it
 */
record Outline(List<double[]> inside, List<double[]> behind) {
    private static final double STEP_METRES = 0.05;
    private static final double PICTURE_PIXELS = 720;
    private static final double[] IN_PIXELS = {1.5, 2.5, 3.5};
    private static final double OUT_PIXELS = 3;

    /** Ten stops under white: below this the camera's own noise hides all difference. */
    private static final double BLACK = 1.0 / 1024;

    static Outline of(Staged s, SeenLight light, int figure) {
        Figure f = s.scene().figures().get(figure);
        Vec3 eye = s.camera().position();
        Frame frame = Frame.of(s);
        List<double[]> inside = new ArrayList<>();
        List<double[]> behind = new ArrayList<>();
        double depth = s.camera().depthMetres(f.face());
        double pixel =
                s.camera().sensorLongMillimetres()
                        / s.camera().focalMillimetres()
                        * depth
                        / PICTURE_PIXELS;
        Vec3 away = f.feet().minus(new Vec3(eye.x(), eye.y(), 0)).unit();
        Vec3 across = new Vec3(away.y(), -away.x(), 0);
        for (double z = STEP_METRES; z < f.heightMetres(); z += STEP_METRES) {
            double half = Stature.half(f, z);
            double slope =
                    (Stature.half(f, z + 0.01) - Stature.half(f, Math.max(0, z - 0.01))) / 0.02;
            for (int side = -1; side <= 1; side += 2) {
                Vec3 out = across.times(side).plus(new Vec3(0, 0, -slope)).unit();
                Vec3 p = f.feet().plus(across.times(side * half)).plus(new Vec3(0, 0, z));
                Vec3 d = p.minus(eye).unit();
                if (!frame.holds(p) || covered(light, eye, p, figure)) {
                    continue;
                }
                inside.add(brightest(light, f, figure, p, out, d, pixel, z));
                behind.add(behind(s, light, eye, p.plus(out.times(OUT_PIXELS * pixel)), figure));
            }
        }
        return new Outline(inside, behind);
    }

    private static boolean covered(SeenLight light, Vec3 eye, Vec3 p, int self) {
        Vec3 d = p.minus(eye);
        double length = d.length();
        int who = light.shade().met(eye, d.unit(), 0, self);
        return who >= 0 && light.shade().visible(p, d.unit().times(-1), length, 0, self) < 0.5;
    }

    private static double[] brightest(
            SeenLight light, Figure f, int self, Vec3 p, Vec3 out, Vec3 d, double pixel, double z) {
        double share = z / f.heightMetres();
        double radius = share > 0.86 ? 0.075 : 0.055;
        Reflectance r = surface(f, share);
        Finish finish = finish(share);
        double[] best = {};
        double most = -1;
        for (double in : IN_PIXELS) {
            double cos = Math.max(0, 1 - in * pixel / radius);
            double sin = Math.sqrt(1 - cos * cos);
            Vec3 n = out.times(cos).minus(d.times(sin)).unit();
            double[] l = light.luminance(p, n, d, finish, r, self);
            double sum = Arrays.stream(l).sum();
            if (sum > most) {
                most = sum;
                best = l;
            }
        }
        return best;
    }

    private static double[] behind(Staged s, SeenLight light, Vec3 eye, Vec3 q, int self) {
        Vec3 d = q.minus(eye).unit();
        double at = q.minus(eye).length();
        int who = light.shade().met(eye, d, at, self);
        if (who < 0) {
            return light.room(eye, d);
        }
        Figure other = s.scene().figures().get(who);
        double t = (other.feet().y() - eye.y()) / d.y();
        Vec3 p = eye.plus(d.times(t)).minus(new Vec3(0, 0.1, 0));
        double share = Math.max(0, Math.min(1, p.z() / other.heightMetres()));
        return light.luminance(p, new Vec3(0, -1, 0), d, finish(share), surface(other, share), who);
    }

    private static Reflectance surface(Figure f, double share) {
        return share > 0.93
                ? f.hair()
                : share > 0.845
                        ? f.skin()
                        : share > 0.5
                                ? f.top()
                                : share > 0.05 ? f.bottom() : Reflectance.grey(0.032);
    }

    private static Finish finish(double share) {
        return share > 0.93
                ? Finish.HAIR
                : share > 0.845 ? Finish.SKIN : share > 0.05 ? Finish.CLOTHES : Finish.SHOES;
    }

    boolean empty() {
        return inside.isEmpty();
    }

    /** Stops of the median of the outline over what is behind; below 0 the edge is darker. */
    double medianStops() {
        return medianStops(-1, 1);
    }

    /** The same with one lamp giving so many times as much. */
    double medianStops(int lamp, double times) {
        return median(stops(lamp, times));
    }

    /** Share of the outline that is less than a third of a stop from what is behind. */
    double lost() {
        return Arrays.stream(stops(-1, 1)).filter(v -> Math.abs(v) < 1 / 3.0).count()
                / (double) inside.size();
    }

    /** Median of the size of the difference, whichever way. */
    double medianSize(int lamp, double times) {
        return median(Arrays.stream(stops(lamp, times)).map(Math::abs).toArray());
    }

    /** How much of the edge's light is that lamp's, 0..1. */
    double share(int lamp) {
        double of = 0;
        double all = 0;
        for (double[] l : inside) {
            of += l[lamp];
            all += Arrays.stream(l).sum();
        }
        return all > 0 ? of / all : 0;
    }

    private double[] stops(int lamp, double times) {
        double[] out = new double[inside.size()];
        for (int i = 0; i < out.length; i++) {
            out[i] =
                    Words.log2(
                            Math.max(BLACK, sum(inside.get(i), lamp, times))
                                    / Math.max(BLACK, sum(behind.get(i), lamp, times)));
        }
        return out;
    }

    private static double sum(double[] l, int lamp, double times) {
        double sum = Arrays.stream(l).sum();
        return lamp < 0 ? sum : sum + (times - 1) * l[lamp];
    }

    private static double median(double[] values) {
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        return sorted.length == 0 ? Double.NaN : sorted[sorted.length / 2];
    }
}
