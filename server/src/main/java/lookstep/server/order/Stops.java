package lookstep.server.order;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * A situation as numbers, for the searches. What must be made whole (a single shot, or a group) is
 * a unit; a stop is a unit together with the shot it ends with. The way to a stop includes making
 * all of its unit in the quickest order. A running order is a row of stops, one a unit at most.
 */
final class Stops {
    /** No such way. */
    static final int NEVER = Integer.MAX_VALUE / 4;

    private final List<Item> items;
    private final List<Unit> units;
    private final int[] unitOf;
    private final int[] itemOf;
    private final int[] roundOf;
    private final int[][] cost;
    private final int[][] gains;
    private final int[] importance;
    private final Optional<Integer> firstUnit;
    private final int[][] between;
    private final int[] fromStart;

    private Stops(
            List<Item> items,
            List<Unit> units,
            Optional<Integer> firstUnit,
            String openRound,
            int[][] between,
            int[] fromStart,
            int[][] itemGains) {
        this.items = items;
        this.units = units;
        this.firstUnit = firstUnit;
        this.between = between;
        this.fromStart = fromStart;
        int stops = units.stream().mapToInt(u -> u.exits().length).sum();
        unitOf = new int[stops];
        itemOf = new int[stops];
        roundOf = new int[stops];
        Map<String, Integer> rounds = new LinkedHashMap<>();
        int at = 0;
        for (int u = 0; u < units.size(); u++) {
            for (int exit : units.get(u).exits()) {
                unitOf[at] = u;
                itemOf[at] = exit;
                Item item = items.get(exit);
                boolean round = item.splittable() && !item.group().isEmpty();
                roundOf[at] = round ? rounds.computeIfAbsent(item.group(), g -> rounds.size()) : -1;
                at++;
            }
        }
        int open = rounds.getOrDefault(openRound, -1);
        cost = new int[stops + 1][stops];
        for (int from = 0; from <= stops; from++) {
            for (int to = 0; to < stops; to++) {
                cost[from][to] = way(from, to, open);
            }
        }
        gains = new int[units.size()][items.size()];
        importance = new int[units.size()];
        for (int u = 0; u < units.size(); u++) {
            for (int member : units.get(u).members()) {
                importance[u] += items.get(member).importance();
                for (int wish = 0; wish < items.size(); wish++) {
                    gains[u][wish] = Math.max(gains[u][wish], itemGains[member][wish]);
                }
            }
        }
    }

    private int way(int from, int to, int open) {
        boolean start = from == unitOf.length;
        if (!start && unitOf[from] == unitOf[to]) {
            return NEVER;
        }
        if (firstUnit.isPresent() && start != (unitOf[to] == firstUnit.get())) {
            return NEVER;
        }
        // a round that was left is over
        if (open >= 0 && roundOf[to] == open && !start && roundOf[from] != open) {
            return NEVER;
        }
        return units.get(unitOf[to]).quickest(row(from), itemOf[to]);
    }

    private int[] row(int from) {
        return from == unitOf.length ? fromStart : between[itemOf[from]];
    }

    /**
     * The situation within a window.
     *
     * @param left which of the situation's shots take part
     * @param first shots that come first, all or none, the first of them before the others; may be
     *     empty
     * @param openRound the splittable round that comes now or not at all; "" for none
     */
    static Stops of(
            Situation situation,
            List<Integer> left,
            List<Integer> first,
            String openRound,
            Times times,
            Variety variety) {
        List<Item> items = situation.left();
        int n = items.size();
        int[][] between = new int[n][n];
        int[] fromStart = new int[n];
        for (int i = 0; i < n; i++) {
            int shoot = Milliseconds.of(items.get(i).shootSeconds());
            fromStart[i] =
                    Milliseconds.of(situation.changeTo(items.get(i), times).seconds()) + shoot;
            for (int j = 0; j < n; j++) {
                if (i != j) {
                    Change change = Changes.between(items.get(j), items.get(i), times);
                    between[j][i] = Milliseconds.of(change.seconds()) + shoot;
                }
            }
        }
        Map<String, List<Integer>> whole = new LinkedHashMap<>();
        for (int i : left) {
            Item item = items.get(i);
            boolean alone = item.group().isEmpty() || item.splittable() || first.contains(i);
            whole.computeIfAbsent(
                            alone ? "shot " + i : "group " + item.group(), k -> new ArrayList<>())
                    .add(i);
        }
        if (!first.isEmpty()) {
            first.forEach(i -> whole.remove("shot " + i));
            whole.put("first", first);
        }
        List<Unit> units = new ArrayList<>();
        Optional<Integer> firstUnit = Optional.empty();
        for (Map.Entry<String, List<Integer>> entry : whole.entrySet()) {
            boolean isFirst = entry.getKey().equals("first");
            boolean safeFirst = isFirst && items.get(first.get(0)).safe();
            if (isFirst) {
                firstUnit = Optional.of(units.size());
            }
            units.add(Unit.of(entry.getValue(), safeFirst, between));
        }
        return new Stops(
                items,
                units,
                firstUnit,
                openRound,
                between,
                fromStart,
                Worth.gains(situation, variety));
    }

    int count() {
        return unitOf.length;
    }

    int units() {
        return units.size();
    }

    /** The row of {@link #cost} that leads from where the set is now. */
    int start() {
        return unitOf.length;
    }

    /** Milliseconds from a stop (or the start) to the end of another, or {@link #NEVER}. */
    int cost(int from, int to) {
        return cost[from][to];
    }

    int unitOf(int stop) {
        return unitOf[stop];
    }

    /** The splittable round of the stop, 0.., or -1. */
    int roundOf(int stop) {
        return roundOf[stop];
    }

    /** What each unit meets of each wish, thousandths. */
    int[][] gains() {
        return gains;
    }

    /** Milliseconds that a unit takes at least, once its first shot is ready. */
    int least(int unit) {
        int[] shooting = items.stream().mapToInt(i -> Milliseconds.of(i.shootSeconds())).toArray();
        return units.get(unit).least(shooting);
    }

    int importance(int unit) {
        return importance[unit];
    }

    boolean mustBeFirst(int unit) {
        return firstUnit.isPresent() && firstUnit.get() == unit;
    }

    boolean somethingMustBeFirst() {
        return firstUnit.isPresent();
    }

    /** A unit that is alone a stop, or has several ends. */
    int[] stopsOf(int unit) {
        return IntStream.range(0, count()).filter(s -> unitOf[s] == unit).toArray();
    }

    /** The unit that the shot is made in; -1 if it takes no part. */
    int unitWith(int item) {
        for (int u = 0; u < units.size(); u++) {
            for (int member : units.get(u).members()) {
                if (member == item) {
                    return u;
                }
            }
        }
        return -1;
    }

    long milliseconds(int[] row) {
        long sum = 0;
        int from = start();
        for (int stop : row) {
            sum += cost[from][stop];
            from = stop;
        }
        return sum;
    }

    /**
     * What is lost if the window ends early, at any moment alike: each unit's importance times when
     * it is whole, in milliseconds. Less is better.
     */
    long lateness(int[] row) {
        long sum = 0;
        long time = 0;
        int from = start();
        for (int stop : row) {
            time += cost[from][stop];
            sum += time * importance[unitOf[stop]];
            from = stop;
        }
        return sum;
    }

    long value(int[] row) {
        return Worth.of(gains, () -> Arrays.stream(row).map(s -> unitOf[s]).iterator());
    }

    /** Whether each way is there and no round is interrupted. */
    boolean allowed(int[] row) {
        int from = start();
        long seen = 0;
        for (int stop : row) {
            int round = roundOf[stop];
            boolean begins = round >= 0 && (from == start() || roundOf[from] != round);
            if (cost[from][stop] >= NEVER || (begins && (seen >> round & 1) != 0)) {
                return false;
            }
            seen |= round >= 0 ? 1L << round : 0;
            from = stop;
        }
        return true;
    }

    /** The shots of a row, as indexes of the situation's left ones. */
    List<Integer> items(int[] row) {
        List<Integer> made = new ArrayList<>();
        int from = start();
        for (int stop : row) {
            Unit unit = units.get(unitOf[stop]);
            made.addAll(unit.order(row(from), itemOf[stop]));
            from = stop;
        }
        return made;
    }

    List<Item> left() {
        return items;
    }
}
