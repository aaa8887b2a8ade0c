package lookstep.server.suggest;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.Look;
import lookstep.server.plan.MoveTimes;

/**
 * The order in which some looks take least time to step through, from the one that is on: the
 * shortest open path, exact (Held and Karp 1962).
 *
 * <p>A key press brings any light; the assistant presses it and carries lights, the photographer
 * turns the camera's dials meanwhile, and what other hands do at the same time still costs a fifth,
 * as in {@link lookstep.server.order.Changes}. Of orders that take as long the one in which fewest
 * lights change is taken.
 *
 * @param order indices of the looks
 * @param seconds before each of them, in that order
 */
public record StepOrder(List<Integer> order, List<Double> seconds) {
    /** The most looks that are ordered. */
    public static final int MOST = 12;

    /** To turn one dial of the camera and look at it (figure of our own); a key press is 2. */
    static final double DIAL_SECONDS = 4;

    private static final double TOGETHER_SHARE = 0.2;

    /** All lights of a large rig changing weigh less than any time that is told. */
    private static final double EACH_LIGHT = 1e-4;

    public StepOrder {
        order = List.copyOf(order);
        seconds = List.copyOf(seconds);
    }

    /**
     * Works it out.
     *
     * @param on the look that is on
     * @throws IllegalArgumentException if there are more than {@link #MOST}
     */
    public static StepOrder of(Look on, List<Look> looks, MoveTimes times) {
        int n = looks.size();
        if (n > MOST) {
            throw new IllegalArgumentException(
                    "an order of " + n + " looks: " + MOST + " is the most");
        }
        if (n == 0) {
            return new StepOrder(List.of(), List.of());
        }
        double[][] cost = new double[n + 1][n];
        for (int j = 0; j < n; j++) {
            for (int i = 0; i < n; i++) {
                cost[i][j] = cost(looks.get(i), looks.get(j), times);
            }
            cost[n][j] = cost(on, looks.get(j), times);
        }
        List<Integer> order = shortest(cost, n);
        List<Double> seconds = new ArrayList<>();
        Look before = on;
        for (int i : order) {
            seconds.add(seconds(before, looks.get(i), times));
            before = looks.get(i);
        }
        return new StepOrder(order, seconds);
    }

    /** All of it. */
    public double totalSeconds() {
        return seconds.stream().mapToDouble(Double::doubleValue).sum();
    }

    private static List<Integer> shortest(double[][] cost, int n) {
        double[][] best = new double[1 << n][n];
        int[][] before = new int[1 << n][n];
        for (double[] row : best) {
            Arrays.fill(row, Double.POSITIVE_INFINITY);
        }
        for (int j = 0; j < n; j++) {
            best[1 << j][j] = cost[n][j];
        }
        for (int done = 1; done < 1 << n; done++) {
            for (int i = 0; i < n; i++) {
                for (int j = 0; j < n && best[done][i] < Double.POSITIVE_INFINITY; j++) {
                    int with = done | 1 << j;
                    double sum = best[done][i] + cost[i][j];
                    if (with != done && sum < best[with][j]) {
                        best[with][j] = sum;
                        before[with][j] = i;
                    }
                }
            }
        }
        int all = (1 << n) - 1;
        int last = 0;
        for (int i = 1; i < n; i++) {
            last = best[all][i] < best[all][last] ? i : last;
        }
        Integer[] order = new Integer[n];
        int left = all;
        for (int at = n - 1; at >= 0; at--) {
            order[at] = last;
            int next = before[left][last];
            left &= ~(1 << last);
            last = next;
        }
        return List.of(order);
    }

    private static double cost(Look from, Look to, MoveTimes times) {
        return seconds(from, to, times) + EACH_LIGHT * lightsChanging(from, to);
    }

    /** From one look to another, with nothing else changing. */
    static double seconds(Look from, Look to, MoveTimes times) {
        boolean key = !from.lights().equals(to.lights()) || !from.moved().equals(to.moved());
        long carried =
                union(from, to).stream()
                        .filter(l -> !Objects.equals(from.moved().get(l), to.moved().get(l)))
                        .count();
        double assistant = (key ? times.key() : 0) + carried * times.light();
        double photographer = dials(from.camera(), to.camera()) * DIAL_SECONDS;
        double slow = Math.max(assistant, photographer);
        return slow + TOGETHER_SHARE * (assistant + photographer - slow);
    }

    private static int dials(CameraSettings a, CameraSettings b) {
        return (a.fNumber() == b.fNumber() ? 0 : 1)
                + (a.seconds() == b.seconds() ? 0 : 1)
                + (a.iso() == b.iso() ? 0 : 1)
                + (a.kelvin() == b.kelvin() ? 0 : 1);
    }

    private static long lightsChanging(Look from, Look to) {
        return union(from, to).stream()
                .filter(l -> !Objects.equals(from.lights().get(l), to.lights().get(l)))
                .count();
    }

    private static List<String> union(Look from, Look to) {
        return java.util.stream.Stream.of(
                        from.lights().keySet(),
                        to.lights().keySet(),
                        from.moved().keySet(),
                        to.moved().keySet())
                .flatMap(java.util.Set::stream)
                .distinct()
                .toList();
    }
}
