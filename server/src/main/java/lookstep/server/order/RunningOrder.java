package lookstep.server.order;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.IntStream;

/**
 * The running order that is worth most within a window.
 *
 * <p><b>Value.</b> Each shot that is left is a wish that counts its importance. A wish is met whole
 * by its own shot, and in part by another that is like it: half of their likeness. Of what is made
 * (the bag and the order), the one that meets a wish best counts. The value of an order is the sum
 * over all wishes of what it adds to what the bag meets already:
 *
 * <pre>
 *   met(i, made) = max over j in made of a(i, j);  a(i, i) = 1,  a(i, j) = likeness(i, j) / 2
 *   value(order) = sum over i left of importance(i) * (met(i, bag and order) - met(i, bag))
 * </pre>
 *
 * So every further shot adds at least half of its importance, a second picture of nearly the same
 * adds little more than that, and the sequence in which they are made does not change the sum (the
 * facility location value: monotone and submodular; G. Nemhauser, L. Wolsey and M. Fisher 1978,
 * from memory).
 *
 * <p><b>Rules.</b> The safe shot is always first and always in. Shots that come together come
 * directly one after the other, all or none; a splittable round may be cut short but not
 * interrupted. A whole group that was begun is finished first if its rest fits, otherwise its rest
 * stays away; a splittable round that was begun goes on now or not at all. No shot ends behind the
 * window, except a safe shot that is longer than it.
 *
 * <p><b>Order.</b> The most valuable set is taken (of several the one that can be done quickest),
 * and of its orders within the window the one with the least sum of importance times the time by
 * which it is made. That is what most is in the bag on average if the window ends early, at any
 * moment alike; it makes important shots early and changes few. A group counts when it is whole.
 *
 * <p>Up to 16 shots, 18 for a plan, the set is proven to be the best; above that it is searched for
 * (see {@link Effort}), with a bound on what any order could be worth.
 */
public final class RunningOrder {
    private static final int ALIKE_THOUSANDTHS = 500;

    private final Situation situation;
    private final int window;
    private final Times times;
    private final Variety variety;
    private final Effort effort;

    private RunningOrder(
            Situation situation, int window, Times times, Variety variety, Effort effort) {
        this.situation = situation;
        this.window = window;
        this.times = times;
        this.variety = variety;
        this.effort = effort;
    }

    /**
     * The order that is worth most, see above.
     *
     * @param windowSeconds from now, 0 or more
     * @throws IllegalArgumentException if the variety lacks a shot or the window is negative
     */
    public static Order best(
            Situation situation,
            double windowSeconds,
            Times times,
            Variety variety,
            Effort effort) {
        return new RunningOrder(
                        situation, Milliseconds.window(windowSeconds), times, variety, effort)
                .best();
    }

    private Order best() {
        List<Item> left = situation.left();
        List<Integer> all = IntStream.range(0, left.size()).boxed().toList();
        List<Integer> safe = all.stream().filter(i -> left.get(i).safe()).toList();
        String begun = safe.isEmpty() ? situation.begunRound() : left.get(safe.get(0)).group();
        List<Integer> round =
                begun.isEmpty()
                        ? List.of()
                        : all.stream().filter(i -> left.get(i).group().equals(begun)).toList();
        boolean mayBeCut = !round.isEmpty() && left.get(round.get(0)).splittable();
        if (mayBeCut || round.isEmpty()) {
            return best(all, safe, mayBeCut ? begun : "");
        }
        List<Integer> first = new ArrayList<>(safe);
        round.stream().filter(i -> !safe.contains(i)).forEach(first::add);
        if (quickest(all, first) <= window) {
            return best(all, first, "");
        }
        return best(
                all.stream().filter(i -> !round.contains(i) || safe.contains(i)).toList(),
                safe,
                "");
    }

    private int quickest(List<Integer> among, List<Integer> first) {
        Stops stops = Stops.of(situation, among, first, "", times, variety);
        return quickestFirst(stops);
    }

    private static int quickestFirst(Stops stops) {
        return IntStream.range(0, stops.count())
                .map(s -> stops.cost(stops.start(), s))
                .min()
                .orElse(Stops.NEVER);
    }

    private Order best(List<Integer> among, List<Integer> first, String openRound) {
        Stops stops = Stops.of(situation, among, first, openRound, times, variety);
        if (!first.isEmpty() && quickestFirst(stops) > window) {
            // only a safe shot alone comes here: it is made whatever the window
            return order(stops, new int[] {stops.stopsOf(stops.unitOf(firstStop(stops)))[0]}, true);
        }
        if (stops.units() <= effort.provenUnits()) {
            return order(stops, SubsetSearch.best(stops, window), true);
        }
        int[] found = InsertionSearch.best(stops, window, effort.steps());
        return order(stops, found, found.length == stops.units());
    }

    private static int firstStop(Stops stops) {
        return IntStream.range(0, stops.count())
                .filter(s -> stops.cost(stops.start(), s) < Stops.NEVER)
                .findFirst()
                .orElseThrow();
    }

    private Order order(Stops stops, int[] found, boolean proven) {
        long value = stops.value(found);
        OptionalDouble bound = OptionalDouble.empty();
        boolean exact = proven;
        if (proven) {
            bound = OptionalDouble.of(Worth.inImportance(value));
        } else if (effort.bounded()) {
            OptionalDouble most = UpperBound.of(stops, window, found);
            exact = most.isPresent() && most.getAsDouble() <= value;
            if (most.isPresent()) {
                bound = OptionalDouble.of(most.getAsDouble() / 1000);
            }
        }
        boolean fits = stops.milliseconds(found) <= window;
        int[] row = fits ? EarlyOrder.of(stops, found, window) : found;
        List<Leg> legs = legs(situation, stops.items(row), times);
        return new Order(
                legs,
                dropped(stops, row),
                Worth.inImportance(value),
                Worth.inImportance(
                        Worth.of(
                                Worth.gains(situation, variety),
                                IntStream.range(0, situation.left().size()).boxed().toList())),
                bound,
                exact,
                Milliseconds.seconds(stops.milliseconds(row)),
                fits);
    }

    static List<Leg> legs(Situation situation, List<Integer> order, Times times) {
        List<Leg> legs = new ArrayList<>();
        long time = 0;
        Situation now = situation;
        for (int index : order) {
            Item item = situation.left().get(index);
            Change change = now.changeTo(item, times);
            int changing = Milliseconds.of(change.seconds());
            int shooting = Milliseconds.of(item.shootSeconds());
            legs.add(
                    new Leg(
                            item.id(),
                            change,
                            Milliseconds.seconds(changing),
                            Milliseconds.seconds(shooting),
                            Milliseconds.seconds(time)));
            time += changing + shooting;
            now = now.after(item);
        }
        return legs;
    }

    private List<Dropped> dropped(Stops stops, int[] row) {
        List<Item> left = situation.left();
        Set<Integer> made = new HashSet<>(stops.items(row));
        List<Item> there = new ArrayList<>(situation.made());
        made.forEach(i -> there.add(left.get(i)));
        List<Dropped> dropped = new ArrayList<>();
        for (int i = 0; i < left.size(); i++) {
            if (!made.contains(i)) {
                dropped.add(
                        new Dropped(
                                left.get(i).id(), reason(stops, i), mostAlike(left.get(i), there)));
            }
        }
        return dropped;
    }

    private Dropped.Reason reason(Stops stops, int item) {
        int unit = stops.unitWith(item);
        if (unit < 0) {
            return Dropped.Reason.REST_DOES_NOT_FIT;
        }
        boolean couldFit = false;
        for (int stop : stops.stopsOf(unit)) {
            couldFit |= stops.cost(stops.start(), stop) <= window;
            for (int first = 0; first < stops.count() && stops.somethingMustBeFirst(); first++) {
                long time = (long) stops.cost(stops.start(), first) + stops.cost(first, stop);
                couldFit |= time <= window;
            }
        }
        return couldFit ? Dropped.Reason.OTHERS_COUNT_MORE : Dropped.Reason.TOO_LONG;
    }

    private Optional<String> mostAlike(Item item, List<Item> there) {
        return there.stream()
                .filter(other -> variety.between(item, other) >= ALIKE_THOUSANDTHS)
                .max(Comparator.comparingInt(other -> variety.between(item, other)))
                .map(Item::id);
    }
}
