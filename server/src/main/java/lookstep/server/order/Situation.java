package lookstep.server.order;

import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;

/**
 * Where the shoot stands.
 *
 * @param left the shots that are still to be made, in the plan's order
 * @param made the shots in the bag
 * @param current the shot the set stands ready for, or was made last; empty before the first
 */
public record Situation(List<Item> left, List<Item> made, Optional<Item> current) {
    /**
     * @throws IllegalArgumentException if a shot is there twice, more than one is the safe shot, or
     *     a group is both splittable and not
     */
    public Situation {
        left = List.copyOf(left);
        made = List.copyOf(made);
        Set<String> ids = new HashSet<>();
        Map<String, Boolean> groups = new HashMap<>();
        String safe = "";
        for (List<Item> items : List.of(left, made)) {
            for (Item item : items) {
                if (!ids.add(item.id())) {
                    throw new IllegalArgumentException(
                            "shot '" + item.id() + "' is there twice; give each an id of its own");
                }
                if (item.safe() && !safe.isEmpty()) {
                    throw new IllegalArgumentException(
                            "both '"
                                    + safe
                                    + "' and '"
                                    + item.id()
                                    + "' are the safe shot; only one can be first");
                }
                safe = item.safe() ? item.id() : safe;
                Boolean before = groups.put(item.group(), item.splittable());
                if (!item.group().isEmpty() && before != null && before != item.splittable()) {
                    throw new IllegalArgumentException(
                            "shot '"
                                    + item.id()
                                    + "': its group '"
                                    + item.group()
                                    + "' may be cut short or not, the same for all its shots");
                }
            }
        }
    }

    /** Before anything is made. */
    public static Situation fresh(List<Item> items) {
        return new Situation(items, List.of(), Optional.empty());
    }

    /** The same, after this shot is made. */
    public Situation after(Item item) {
        return new Situation(
                left.stream().filter(i -> !i.id().equals(item.id())).toList(),
                Stream.concat(made.stream(), Stream.of(item)).toList(),
                Optional.of(item));
    }

    /** What changes before the shot, if it comes now. */
    Change changeTo(Item item, Times times) {
        return current.map(c -> Changes.between(c, item, times))
                .orElseGet(() -> Changes.first(item, times));
    }

    /**
     * The round the set is in the middle of: some of it is in the bag, and the current shot too.
     */
    String begunRound() {
        String group = current.map(Item::group).orElse("");
        boolean begun = made.stream().anyMatch(i -> i.group().equals(group));
        return begun ? group : "";
    }
}
