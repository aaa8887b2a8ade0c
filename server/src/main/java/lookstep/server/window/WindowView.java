package lookstep.server.window;

import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import lookstep.server.live.LiveState;
import lookstep.server.order.Change;
import lookstep.server.order.ChangeKind;
import lookstep.server.order.Changes;
import lookstep.server.order.FixedOrder;
import lookstep.server.order.Item;
import lookstep.server.order.Leg;
import lookstep.server.order.Recut;
import lookstep.server.order.Situation;
import lookstep.server.plan.PlanWords;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;

/**
 * How the order as it is goes with the time that is left.
 *
 * @param shots for each shot of the plan
 * @param endsInSeconds from now until the last shot of the order is made
 * @param spareSeconds left over then; below 0 if it does not fit
 * @param fallsOff how many shots of the order end behind the window
 * @param oneShot the one to make if there is no time for the next
 * @param better how many more shots another order would have within the window; 0 if none
 * @param paceSays how this shoot's pace differs from the plan, in words; empty if it does not
 */
public record WindowView(
        Map<String, ShotTime> shots,
        double endsInSeconds,
        double spareSeconds,
        int fallsOff,
        Optional<String> oneShot,
        int better,
        String paceSays) {
    /** Less is not worth a word. */
    private static final double PACE_SHARE = 0.15;

    /**
     * One shot.
     *
     * @param startsInSeconds from now until its change begins; empty if it is made, under way or
     *     left out
     * @param takesSeconds its change and itself
     * @param change what changes before it, in words
     * @param fallsOff true if it ends behind the window
     */
    public record ShotTime(
            Optional<Double> startsInSeconds,
            double takesSeconds,
            String change,
            boolean fallsOff) {}

    /** Looks at a moment. */
    public static WindowView of(WindowNow now, LiveState state) {
        return of(now, state, new BestOrders());
    }

    /**
     * Looks at a moment.
     *
     * @param orders keeps the best one from one time to the next
     */
    public static WindowView of(WindowNow now, LiveState state, BestOrders orders) {
        List<String> order = state.course().order();
        int at = Math.min(state.position(), order.size());
        Situation ahead = now.inOrder(order.subList(at, order.size()));
        double time = now.afterCurrent();
        FixedOrder fixed = FixedOrder.within(ahead, time, now.paced(), now.variety());
        Map<String, ShotTime> shots = new LinkedHashMap<>();
        Map<String, Item> items = new HashMap<>();
        ahead.left().forEach(i -> items.put(i.id(), i));
        Optional<Item> before = now.current();
        for (Leg leg : fixed.legs()) {
            Item item = items.get(leg.id());
            shots.put(
                    leg.id(),
                    new ShotTime(
                            Optional.of(now.currentSeconds() + leg.startsAtSeconds()),
                            leg.changeSeconds() + leg.shootSeconds(),
                            words(leg.change(), before, item, now),
                            fixed.fallsOff().contains(leg.id())));
            before = Optional.of(item);
        }
        others(now, shots);
        int falls = fixed.legs().size() - fixed.fitting();
        boolean next = fixed.fitting() > 0 || fixed.legs().isEmpty();
        Recut best = falls > 0 ? orders.of(now) : null;
        return new WindowView(
                shots,
                now.currentSeconds() + fixed.secondsOfAll(),
                now.leftSeconds() - now.currentSeconds() - fixed.secondsOfAll(),
                falls,
                next || best == null
                        ? Optional.empty()
                        : best.oneShot().or(() -> best.order().ids().stream().findFirst()),
                best == null ? 0 : Math.max(0, best.order().legs().size() - fixed.fitting()),
                pace(now));
    }

    /** Nothing can be said. */
    public static WindowView unknown(ShootPlan plan) {
        Map<String, ShotTime> shots = new LinkedHashMap<>();
        plan.shots().forEach(s -> shots.put(s.id(), new ShotTime(Optional.empty(), 0, "", false)));
        return new WindowView(shots, 0, 0, 0, Optional.empty(), 0, "");
    }

    /** What is made, under way or left out takes what it would from the current shot. */
    private static void others(WindowNow now, Map<String, ShotTime> shots) {
        for (Shot shot : now.plan().shots()) {
            if (!shots.containsKey(shot.id())) {
                Item item = ShotItems.of(now.plan(), shot);
                Change change =
                        now.current()
                                .filter(c -> !c.id().equals(item.id()))
                                .map(c -> Changes.between(c, item, now.paced()))
                                .orElseGet(() -> Changes.first(item, now.paced()));
                shots.put(
                        shot.id(),
                        new ShotTime(
                                Optional.empty(),
                                change.seconds() + item.shootSeconds() * now.pace().shots(),
                                words(change, now.current(), item, now),
                                false));
            }
        }
    }

    private static String pace(WindowNow now) {
        double shots = now.pace().shots();
        return Math.abs(shots - 1) < PACE_SHARE
                ? ""
                : String.format(Locale.ROOT, "shots take %.1f times as long as planned", shots);
    }

    private static String words(Change change, Optional<Item> before, Item item, WindowNow now) {
        return change.kinds().stream()
                .map(kind -> word(kind, before, item, now))
                .collect(Collectors.joining(", "));
    }

    private static String word(ChangeKind kind, Optional<Item> before, Item item, WindowNow now) {
        return switch (kind) {
            case LOOK -> "look";
            case WORDS -> "words";
            case PEOPLE -> people(before, item);
            case LENS -> PlanWords.number(item.lensMillimetres()) + " mm";
            case CAMERA -> "camera " + PlanWords.number(item.distanceMetres()) + " m";
            case LIGHTS -> lights(before, item);
            case ROOM -> "to " + now.plan().place().name();
        };
    }

    private static String people(Optional<Item> before, Item item) {
        List<String> in =
                item.people().stream()
                        .filter(p -> before.filter(b -> b.people().contains(p)).isEmpty())
                        .sorted()
                        .toList();
        List<String> out =
                before.stream()
                        .flatMap(b -> b.people().stream())
                        .filter(p -> !item.people().contains(p))
                        .sorted()
                        .toList();
        if (item.people().size() == 1 && !in.isEmpty()) {
            return in.get(0) + " alone";
        }
        if (in.size() > 2 || out.size() > 2) {
            return (in.isEmpty() ? "" : in.size() + " in")
                    + (in.isEmpty() || out.isEmpty() ? "" : ", ")
                    + (out.isEmpty() ? "" : out.size() + " out");
        }
        return (in.isEmpty() ? "" : String.join(" and ", in) + " in")
                + (in.isEmpty() || out.isEmpty() ? "" : ", ")
                + (out.isEmpty() ? "" : String.join(" and ", out) + " out");
    }

    private static String lights(Optional<Item> before, Item item) {
        Map<String, String> was = before.map(Item::movedLights).orElse(Map.of());
        Map<String, String> all = new LinkedHashMap<>(was);
        all.putAll(item.movedLights());
        return all.keySet().stream()
                        .filter(
                                l ->
                                        !was.getOrDefault(l, "")
                                                .equals(item.movedLights().getOrDefault(l, "")))
                        .sorted()
                        .collect(Collectors.joining(" and "))
                + " moved";
    }
}
