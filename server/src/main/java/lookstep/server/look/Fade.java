package lookstep.server.look;

import java.util.ArrayList;
import java.util.List;
import lookstep.protocols.fixture.Emitter;
import lookstep.server.plan.ShootPlan;

/**
 * The way from one state of a rig to another. Each light goes in a straight line from mix to mix,
 * so its luminance only rises or only falls; the pace along the line makes the change even to the
 * eye, in lightness, which goes by the cube root of luminance (CIE 15:2004, L*).
 */
public final class Fade {
    private final List<double[]> candela;

    /** For this plan's rig. */
    public Fade(ShootPlan plan) {
        candela =
                plan.rig().stream()
                        .map(
                                l ->
                                        l.fixture().emitters().stream()
                                                .mapToDouble(Emitter::candela)
                                                .toArray())
                        .toList();
    }

    /**
     * The state part of the way along.
     *
     * @param part 0 or less is {@code from}, 1 or more is {@code to}
     */
    public RigLevels between(RigLevels from, RigLevels to, double part) {
        if (part >= 1) {
            return to;
        }
        if (part <= 0) {
            return from;
        }
        List<double[]> lights = new ArrayList<>(candela.size());
        for (int i = 0; i < candela.size(); i++) {
            double[] a = from.of(i);
            double[] b = to.of(i);
            double along = along(luminous(a, i), luminous(b, i), part);
            double[] at = new double[a.length];
            for (int e = 0; e < at.length; e++) {
                at[e] = Math.min(1, Math.max(0, a[e] + along * (b[e] - a[e])));
            }
            lights.add(at);
        }
        return new RigLevels(lights);
    }

    private double luminous(double[] levels, int light) {
        double sum = 0;
        for (int e = 0; e < levels.length; e++) {
            sum += levels[e] * candela.get(light)[e];
        }
        return sum;
    }

    /** Luminance is linear along the way: find where it has the lightness wanted. */
    private static double along(double from, double to, double part) {
        double rise = to - from;
        if (Math.abs(rise) <= 1e-6 * Math.max(from, to)) {
            return part;
        }
        double root = Math.cbrt(from) + part * (Math.cbrt(to) - Math.cbrt(from));
        return (root * root * root - from) / rise;
    }
}
