package lookstep.server.output;

import java.util.ArrayList;
import java.util.List;
import lookstep.server.look.RigLevels;

/**
 * Counts how often each light changes direction: up, then down, then up. A light turns when its
 * luminance or any one of its emitters does, so that red to blue and back counts as well as light
 * to dark and back (WCAG 2.2, 2.3.1 has a red flash of its own).
 */
final class Turns {
    /** As many opposing changes as a light may make in any second. */
    static final int MOST = 3;

    private static final long SECOND_NANOS = 1_000_000_000;

    /** Of full; what moves less is not a change. */
    private static final double LEAST = 1e-3;

    /**
     * Of full. A turn counts from when it has come this far, for a slow fade is seen late: so four
     * turns that are seen never fall into one second.
     */
    private static final double SEEN = 0.02;

    private final List<Course> lights;

    /**
     * @param candela of each emitter at full, for each light in the rig's order
     * @param start where the lights are
     */
    Turns(List<double[]> candela, RigLevels start) {
        lights = new ArrayList<>(candela.size());
        for (int i = 0; i < candela.size(); i++) {
            lights.add(new Course(candela.get(i), start.of(i)));
        }
    }

    /** These levels are on the way to the lights now. */
    void saw(RigLevels levels, long nowNanos) {
        for (int i = 0; i < lights.size(); i++) {
            lights.get(i).saw(levels.of(i), nowNanos);
        }
    }

    /** Whether the lights may set out for {@code target} now without one turning too often. */
    boolean allow(RigLevels target, long nowNanos) {
        for (int i = 0; i < lights.size(); i++) {
            if (!lights.get(i).allows(target.of(i), nowNanos)) {
                return false;
            }
        }
        return true;
    }

    /** One light: the emitters, and behind them their sum weighted by candela. */
    private static final class Course {
        private final double[] weights;

        /** Where each last stood when it went on in its direction. */
        private final double[] at;

        private final int[] direction;

        /** Where each turned last. */
        private final double[] turnedAt;

        private final long[] turned = new long[MOST];
        private long turns;

        Course(double[] candela, double[] start) {
            weights = candela.clone();
            double sum = 0;
            for (double c : candela) {
                sum += c;
            }
            for (int e = 0; e < weights.length; e++) {
                weights[e] /= sum;
            }
            at = withSum(start);
            direction = new int[at.length];
            turnedAt = at.clone();
        }

        void saw(double[] levels, long now) {
            double[] next = withSum(levels);
            boolean turn = false;
            boolean early = false;
            for (int e = 0; e < next.length; e++) {
                int moved = moved(next[e] - at[e]);
                if (moved != 0 && moved == -direction[e]) {
                    turn = true;
                    turnedAt[e] = at[e];
                }
                if (moved != 0) {
                    direction[e] = moved;
                }
                if (Math.signum(next[e] - at[e]) == direction[e]) {
                    at[e] = next[e];
                    early |= direction[e] != 0 && Math.abs(at[e] - turnedAt[e]) < SEEN;
                }
            }
            if (turn) {
                turns++;
            }
            if ((turn || early) && turns > 0) {
                turned[(int) ((turns - 1) % MOST)] = now;
            }
        }

        boolean allows(double[] target, long now) {
            boolean full = turns >= MOST && now - turned[(int) (turns % MOST)] < SECOND_NANOS;
            if (!full) {
                return true;
            }
            double[] next = withSum(target);
            for (int e = 0; e < next.length; e++) {
                if (direction[e] != 0 && moved(next[e] - at[e]) == -direction[e]) {
                    return false;
                }
            }
            return true;
        }

        private double[] withSum(double[] levels) {
            double[] all = new double[levels.length + 1];
            for (int e = 0; e < levels.length; e++) {
                all[e] = levels[e];
                all[levels.length] += levels[e] * weights[e];
            }
            return all;
        }

        private static int moved(double difference) {
            return Math.abs(difference) < LEAST ? 0 : difference > 0 ? 1 : -1;
        }
    }
}
