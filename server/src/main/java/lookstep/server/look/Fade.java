package lookstep.server.look;

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

    /** The one under way: a fade asks for it again with each packet. */
    private volatile Way newest;

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

    /** Of each emitter at full, bare; for each light in the rig's order. */
    public List<double[]> candela() {
        return candela.stream().map(double[]::clone).toList();
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
        Way way = newest;
        if (way == null || !way.is(from, to)) {
            way = new Way(from, to, candela);
            newest = way;
        }
        return way.at(part);
    }

    /** From one state to one other, with what is the same at each part of the way. */
    private static final class Way {
        private final RigLevels from;
        private final RigLevels to;
        private final double[] start;
        private final double[] rise;
        private final double[] startRoot;
        private final double[] rootRise;

        Way(RigLevels from, RigLevels to, List<double[]> candela) {
            this.from = from;
            this.to = to;
            int lights = candela.size();
            start = new double[lights];
            rise = new double[lights];
            startRoot = new double[lights];
            rootRise = new double[lights];
            for (int i = 0; i < lights; i++) {
                start[i] = luminous(from.shared(i), candela.get(i));
                double end = luminous(to.shared(i), candela.get(i));
                double rises = end - start[i];
                rise[i] = Math.abs(rises) <= 1e-6 * Math.max(start[i], end) ? 0 : rises;
                startRoot[i] = Math.cbrt(start[i]);
                rootRise[i] = Math.cbrt(end) - startRoot[i];
            }
        }

        @SuppressWarnings(
                "ReferenceEquality") // equal ones would do as well, but take longer to tell
        boolean is(RigLevels start, RigLevels end) {
            return from == start && to == end;
        }

        private static double luminous(double[] levels, double[] candela) {
            double sum = 0;
            for (int e = 0; e < levels.length; e++) {
                sum += levels[e] * candela[e];
            }
            return sum;
        }

        RigLevels at(double part) {
            double[][] lights = new double[start.length][];
            for (int i = 0; i < lights.length; i++) {
                double along = along(i, part);
                double[] a = from.shared(i);
                double[] b = to.shared(i);
                double[] at = new double[a.length];
                for (int e = 0; e < at.length; e++) {
                    at[e] = Math.min(1, Math.max(0, a[e] + along * (b[e] - a[e])));
                }
                lights[i] = at;
            }
            return RigLevels.owning(lights);
        }

        /** Luminance is linear along the way: find where it has the lightness wanted. */
        private double along(int light, double part) {
            if (rise[light] == 0) {
                return part;
            }
            double root = startRoot[light] + part * rootRise[light];
            return (root * root * root - start[light]) / rise[light];
        }
    }
}
