package lookstep.server.live;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;

/**
 * What is made in which order, as it is after re-cuts.
 *
 * @param order ids of shots, made ones included; the position counts in it
 * @param leftOut ids of those that the newest re-cut left out
 * @param windowMillis how long the window is since a re-cut; 0 is as the plan says
 * @param says the newest re-cut in words; empty if there was none
 * @param before as it was before that
 */
public record Course(
        List<String> order,
        List<String> leftOut,
        long windowMillis,
        String says,
        Optional<Course> before) {
    /** Before a plan was seen. */
    public static final Course NONE = new Course(List.of(), List.of(), 0, "", Optional.empty());

    private static final int MOST_BEFORE = 20;

    public Course {
        order = order.stream().distinct().toList();
        Set<String> in = Set.copyOf(order);
        leftOut = leftOut.stream().filter(id -> !in.contains(id)).distinct().toList();
    }

    /** Whether a re-cut can be taken back. */
    public boolean cut() {
        return before.isPresent();
    }

    Course ordered(List<String> newOrder, List<String> newLeftOut) {
        return new Course(newOrder, newLeftOut, windowMillis, says, before);
    }

    Course cut(Event.Recut e) {
        return new Course(
                e.order(),
                e.leftOut(),
                e.windowMillis(),
                e.says(),
                Optional.of(shortened(this, 1)));
    }

    /** To the order before the newest re-cut, of which some may have been made since. */
    Course back(Event.CutTakenBack e) {
        Course was = before.orElse(NONE);
        return new Course(e.order(), e.leftOut(), was.windowMillis, was.says, was.before);
    }

    private static Course shortened(Course course, int depth) {
        if (course.before.isEmpty()) {
            return course;
        }
        return new Course(
                course.order,
                course.leftOut,
                course.windowMillis,
                course.says,
                depth >= MOST_BEFORE
                        ? Optional.empty()
                        : course.before.map(b -> shortened(b, depth + 1)));
    }

    /**
     * The order now that the plan has these shots: the first so many stay as they are, as far as
     * they are still there; after a re-cut what it chose stays, otherwise the rest is as the plan
     * has it. What is new comes where the plan has it, but not among what was made; what was made,
     * and comes back with its place, stands before the current one.
     *
     * @param possible ids in the plan's order
     * @param added those of them that the plan file does not have: they stay behind what they were
     *     put behind
     * @param at how many of the order are made or under way
     * @param made whether a shot needs not be made any more
     */
    Course following(List<String> possible, List<String> added, int at, Predicate<String> made) {
        List<String> next = new ArrayList<>(order.subList(0, Math.min(at, order.size())));
        next.retainAll(possible);
        List<String> back =
                possible.stream().filter(id -> !order.contains(id) && made.test(id)).toList();
        next.addAll(Math.max(0, next.size() - 1), back);
        int behind = next.size();
        // Of another place, it may be wanted again there.
        List<String> out = new ArrayList<>(leftOut);
        if (cut()) {
            order.stream()
                    .skip(at)
                    .filter(id -> possible.contains(id) && !next.contains(id))
                    .forEach(next::add);
            for (String id : possible) {
                if (!next.contains(id) && !out.contains(id)) {
                    next.add(Math.max(behind, placeOf(id, possible, next)), id);
                }
            }
            return ordered(next, out);
        }
        // A round that was taken back: the plan does not ask for it.
        out.retainAll(added);
        possible.stream()
                .filter(id -> !next.contains(id) && !added.contains(id))
                .forEach(next::add);
        for (String id : order) {
            if (added.contains(id) && possible.contains(id) && !next.contains(id)) {
                next.add(Math.max(behind, placeOf(id, order, next)), id);
            }
        }
        possible.stream().filter(id -> !next.contains(id) && !out.contains(id)).forEach(next::add);
        return ordered(next, out);
    }

    /** Behind the nearest of its forerunners in the plan that is in the order. */
    private static int placeOf(String id, List<String> possible, List<String> in) {
        for (int i = possible.indexOf(id) - 1; i >= 0; i--) {
            int at = in.indexOf(possible.get(i));
            if (at >= 0) {
                return at + 1;
            }
        }
        return 0;
    }

    /**
     * The order before the newest re-cut, behind what was made since.
     *
     * @param at how many of the order are made or under way
     */
    List<String> backBehind(int at) {
        Set<String> all = new LinkedHashSet<>(order.subList(0, Math.min(at, order.size())));
        before.ifPresent(b -> all.addAll(b.order()));
        return List.copyOf(all);
    }

    /** The order with these behind what is made or under way; they are no longer left out. */
    Course with(List<String> ids, int at) {
        List<String> next = new ArrayList<>(order);
        next.removeAll(ids);
        next.addAll(Math.min(at, next.size()), ids);
        List<String> out = new ArrayList<>(leftOut);
        out.removeAll(ids);
        return ordered(next, out);
    }
}
