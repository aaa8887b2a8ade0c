package lookstep.server.order;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * How quick a re-cut of 40 shots is, beside one plain greedy pass in the same run, and how near the
 * running orders of 17 to 60 shots are to what no order can be worth more than. The same seeds give
 * the same plans. {@code main N}: the bounds of N seeds; without, the times alone.
 */
public final class OrderBench {
    private static final int SHOTS = 40;
    private static final int WARM = 60;
    private static final int CALLS = 300;
    private static final int[] WINDOWS = {30, 60, 120, 300, 600, 900};

    private static final ThreadMXBean THREADS = ManagementFactory.getThreadMXBean();

    private OrderBench() {}

    /** Numbers of seeds, or nothing. */
    public static void main(String[] args) {
        run();
        if (args.length > 0) {
            bounds(Integer.parseInt(args[0]));
        }
    }

    /** The times of a re-cut. */
    public static void run() {
        Map<Integer, List<Long>> recuts = new LinkedHashMap<>();
        List<Long> all = new ArrayList<>();
        List<Long> own = new ArrayList<>();
        List<Long> greedy = new ArrayList<>();
        double worth = 0;
        double worthGreedy = 0;
        for (int i = 0; i < WARM + CALLS; i++) {
            List<Item> items = new RandomShoots(i / WINDOWS.length).plan(SHOTS);
            Variety variety = Variety.of(items);
            Item safe = items.stream().filter(Item::safe).findFirst().orElseThrow();
            List<Item> left = items.stream().filter(item -> !item.safe()).toList();
            Situation situation = new Situation(left, List.of(safe), Optional.of(safe));
            int window = WINDOWS[i % WINDOWS.length];
            long ownBegan = THREADS.getCurrentThreadCpuTime();
            long began = System.nanoTime();
            Recut recut = Recut.of(situation, window, Times.USUAL, variety);
            long between = System.nanoTime();
            long ownEnded = THREADS.getCurrentThreadCpuTime();
            double plain = greedy(situation, window, variety);
            long ended = System.nanoTime();
            if (i == 0) {
                System.out.printf(
                        Locale.ROOT,
                        "%nre-cut of %d shots, windows of 30 s to 15 min%n"
                                + "  %-52s %8.2f ms, a greedy pass %.2f ms%n",
                        SHOTS,
                        "the first call",
                        (between - began) / 1e6,
                        (ended - between) / 1e6);
            }
            if (i >= WARM) {
                recuts.computeIfAbsent(window, w -> new ArrayList<>()).add(between - began);
                all.add(between - began);
                own.add(ownEnded - ownBegan);
                greedy.add(ended - between);
                worth += recut.order().value();
                worthGreedy += plain;
            }
        }
        recuts.forEach((window, nanos) -> row("warm, " + window + " s", nanos));
        row("warm, all windows", all);
        row("of that on a processor, the rest is waiting for one", own);
        row("a greedy pass, best gain a second next", greedy);
        System.out.printf(
                Locale.ROOT,
                "  %-52s %.3f%n",
                "worth of the greedy orders, of that of the re-cuts",
                worthGreedy / worth);
    }

    /** Groups and rounds are nothing to it, so it has fewer rules than a re-cut. */
    private static double greedy(Situation situation, int windowSeconds, Variety variety) {
        int[][] gains = Worth.gains(situation, variety);
        List<Integer> made = new ArrayList<>();
        Situation now = situation;
        double left = windowSeconds;
        while (true) {
            Item best = null;
            double bestScore = 0;
            double bestSeconds = 0;
            for (Item item : now.left()) {
                double seconds = now.changeTo(item, Times.USUAL).seconds() + item.shootSeconds();
                List<Integer> with = new ArrayList<>(made);
                with.add(situation.left().indexOf(item));
                double score = (Worth.of(gains, with) - Worth.of(gains, made)) / seconds;
                if (seconds <= left && score > bestScore) {
                    best = item;
                    bestScore = score;
                    bestSeconds = seconds;
                }
            }
            if (best == null) {
                return Worth.inImportance(Worth.of(gains, made));
            }
            made.add(situation.left().indexOf(best));
            left -= bestSeconds;
            now = now.after(best);
        }
    }

    private static void bounds(int seeds) {
        System.out.printf(
                "%nhow far below its bound, seeds 0 to %d: quick (re-cut), thorough%n", seeds - 1);
        for (int shots : new int[] {17, 25, 40, 60}) {
            for (int window : WINDOWS) {
                List<Double> quick = new ArrayList<>();
                List<Double> thorough = new ArrayList<>();
                List<Long> times = new ArrayList<>();
                int worst = 0;
                for (int seed = 0; seed < seeds; seed++) {
                    List<Item> items = new RandomShoots(seed).plan(shots);
                    Situation fresh = Situation.fresh(items);
                    Variety variety = Variety.of(items);
                    Order re = RunningOrder.best(fresh, window, Times.USUAL, variety, Effort.QUICK);
                    long began = System.nanoTime();
                    Order best =
                            RunningOrder.best(fresh, window, Times.USUAL, variety, Effort.THOROUGH);
                    times.add(System.nanoTime() - began);
                    double bound = best.bound().orElse(best.valueOfAll());
                    quick.add(1 - re.value() / bound);
                    thorough.add(1 - best.value() / bound);
                    worst = thorough.get(seed) > thorough.get(worst) ? seed : worst;
                }
                System.out.printf(
                        Locale.ROOT,
                        "  %d shots, %3d s: quick median %.2f %%, worst %.2f %%;"
                                + " thorough median %.2f %%, worst %.2f %% (seed %d),"
                                + " %.1f s, at most %.1f s%n",
                        shots,
                        window,
                        100 * middle(quick),
                        100 * quick.stream().max(Double::compare).orElseThrow(),
                        100 * middle(thorough),
                        100 * thorough.get(worst),
                        worst,
                        middle(times) / 1e9,
                        times.stream().max(Long::compare).orElseThrow() / 1e9);
            }
        }
    }

    private static <T extends Comparable<T>> T middle(List<T> values) {
        return values.stream().sorted().toList().get(values.size() / 2);
    }

    private static void row(String what, List<Long> nanos) {
        List<Long> sorted = nanos.stream().sorted().toList();
        System.out.printf(
                Locale.ROOT,
                "  %-52s median %.2f ms, p99 %.2f ms, %d calls%n",
                what,
                sorted.get(sorted.size() / 2) / 1e6,
                sorted.get((int) Math.floor(sorted.size() * 0.99)) / 1e6,
                sorted.size());
    }
}
