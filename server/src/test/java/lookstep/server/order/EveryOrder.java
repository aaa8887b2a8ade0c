package lookstep.server.order;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * The rules and the value as RunningOrder states them, in the plainest way: every order of every
 * set is tried. Shares nothing with the searches but the records, the changes and the likeness.
 */
final class EveryOrder {
    private final Situation situation;
    private final double window;
    private final Times times;
    private final Variety variety;
    private final List<Item> row = new ArrayList<>();
    private double best = -1;
    private double leastSeconds;

    EveryOrder(Situation situation, double window, Times times, Variety variety) {
        this.situation = situation;
        this.window = window;
        this.times = times;
        this.variety = variety;
    }

    /** The most any allowed order within the window is worth; -1 if not even the safe shot fits. */
    double bestValue() {
        if (best < 0) {
            extend(0);
        }
        return best;
    }

    double leastSecondsOfBest() {
        bestValue();
        return leastSeconds;
    }

    private void extend(double time) {
        if (allowed(row)) {
            double value = value(row);
            boolean better = value > best + 1e-9;
            boolean same = Math.abs(value - best) <= 1e-9;
            if (better || (same && time < leastSeconds)) {
                best = Math.max(best, value);
                leastSeconds = time;
            }
        }
        for (Item item : situation.left()) {
            if (!row.contains(item)) {
                double later = time + seconds(row.isEmpty() ? null : row.get(row.size() - 1), item);
                if (later <= window + 1e-9) {
                    row.add(item);
                    extend(later);
                    row.remove(row.size() - 1);
                }
            }
        }
    }

    double seconds(Item from, Item to) {
        Change change;
        if (from != null) {
            change = Changes.between(from, to, times);
        } else if (situation.current().isPresent()) {
            change = Changes.between(situation.current().get(), to, times);
        } else {
            change = Changes.first(to, times);
        }
        return Math.round(change.seconds() * 1000) / 1000.0 + to.shootSeconds();
    }

    double value(List<Item> order) {
        double sum = 0;
        for (Item wish : situation.left()) {
            double before = met(wish, situation.made());
            List<Item> all = new ArrayList<>(situation.made());
            all.addAll(order);
            sum += wish.importance() * (met(wish, all) - before);
        }
        return sum;
    }

    private double met(Item wish, List<Item> made) {
        double most = 0;
        for (Item one : made) {
            double part =
                    one.id().equals(wish.id())
                            ? 1
                            : Math.floor(0.5 * variety.between(wish, one)) / 1000;
            most = Math.max(most, part);
        }
        return most;
    }

    /** Sum of importance times the end of what it is made with. */
    double lateness(List<Item> order) {
        double sum = 0;
        double time = 0;
        double waiting = 0;
        for (int i = 0; i < order.size(); i++) {
            Item item = order.get(i);
            time += seconds(i == 0 ? null : order.get(i - 1), item);
            waiting += item.importance();
            boolean goesOn =
                    i + 1 < order.size()
                            && !item.group().isEmpty()
                            && !item.splittable()
                            && item.group().equals(order.get(i + 1).group());
            if (!goesOn) {
                sum += time * waiting;
                waiting = 0;
            }
        }
        return sum;
    }

    /** The least lateness of any allowed order of the same shots within the window. */
    double leastLateness(List<Item> order) {
        return leastLateness(order, new ArrayList<>(), 0);
    }

    private double leastLateness(List<Item> of, List<Item> begun, double time) {
        if (begun.size() == of.size()) {
            return allowed(begun) ? lateness(begun) : Double.MAX_VALUE;
        }
        double least = Double.MAX_VALUE;
        for (Item item : of) {
            if (!begun.contains(item)) {
                double later =
                        time + seconds(begun.isEmpty() ? null : begun.get(begun.size() - 1), item);
                if (later <= window + 1e-9) {
                    begun.add(item);
                    least = Math.min(least, leastLateness(of, begun, later));
                    begun.remove(begun.size() - 1);
                }
            }
        }
        return least;
    }

    boolean allowed(List<Item> order) {
        Item safe = situation.left().stream().filter(Item::safe).findFirst().orElse(null);
        if (safe != null && (order.isEmpty() || !order.get(0).equals(safe))) {
            return false;
        }
        Set<String> over = new HashSet<>();
        String now = "";
        for (Item item : order) {
            if (!item.group().equals(now)) {
                over.add(now);
                now = item.group();
            }
            if (!now.isEmpty() && over.contains(now)) {
                return false;
            }
        }
        String begun = safe != null ? safe.group() : begunNow();
        for (Item item : situation.left()) {
            if (item.group().isEmpty()) {
                continue;
            }
            List<Item> whole =
                    situation.left().stream().filter(i -> i.group().equals(item.group())).toList();
            List<Item> in = order.stream().filter(whole::contains).toList();
            if (item.group().equals(begun)) {
                if (!begunRight(whole, in, order, item.splittable())) {
                    return false;
                }
            } else if (!item.splittable() && !in.isEmpty() && in.size() < whole.size()) {
                return false;
            }
        }
        return true;
    }

    private boolean begunRight(
            List<Item> whole, List<Item> in, List<Item> order, boolean mayBeCut) {
        boolean atOnce = in.isEmpty() || order.subList(0, in.size()).containsAll(in);
        if (mayBeCut) {
            return atOnce;
        }
        boolean onlySafe = in.size() == 1 && in.get(0).safe();
        boolean none = in.isEmpty() || onlySafe;
        return quickest(whole, new ArrayList<>(), 0) <= window + 1e-9
                ? in.size() == whole.size() && atOnce
                : none;
    }

    private double quickest(List<Item> whole, List<Item> begun, double time) {
        if (begun.size() == whole.size()) {
            return time;
        }
        double least = Double.MAX_VALUE;
        for (Item item : whole) {
            boolean safeLater =
                    begun.isEmpty() && !item.safe() && whole.stream().anyMatch(Item::safe);
            if (!begun.contains(item) && !safeLater) {
                Item from = begun.isEmpty() ? null : begun.get(begun.size() - 1);
                begun.add(item);
                least = Math.min(least, quickest(whole, begun, time + seconds(from, item)));
                begun.remove(begun.size() - 1);
            }
        }
        return least;
    }

    private String begunNow() {
        String group = situation.current().map(Item::group).orElse("");
        return situation.made().stream().anyMatch(i -> i.group().equals(group)) ? group : "";
    }
}
