package lookstep.server.window;

import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import lookstep.server.order.Item;
import lookstep.server.order.Times;
import lookstep.server.plan.Look;
import lookstep.server.plan.MoveTimes;
import lookstep.server.plan.PlanWords;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;

/** Shots of a plan as the running order sees them. */
public final class ShotItems {
    /** Each further person who comes or goes, all going to another place: figures of our own. */
    private static final double EACH_MORE_PERSON_SECONDS = 1;

    private static final double ROOM_SECONDS = 60;
    private static final double TOGETHER_SHARE = 0.2;

    private ShotItems() {}

    /** All shots of the plan, in its order. */
    public static List<Item> of(ShootPlan plan) {
        return plan.shots().stream().map(s -> of(plan, s)).toList();
    }

    /** One shot of the plan. */
    static Item of(ShootPlan plan, Shot shot) {
        return new Item(
                shot.id(),
                shot.safe(),
                shot.importance(),
                seconds(plan.around().times(), shot),
                shot.look(),
                new HashSet<>(shot.people()),
                PlanWords.arrangement(shot.arrangement())
                        + " "
                        + shot.arrangement().spacingMetres(),
                String.join(" ", shot.say()),
                shot.framing(),
                shot.lensMillimetres(),
                shot.distanceMetres(),
                shot.cameraHeightMetres(),
                moved(plan.look(shot.look())),
                plan.place().name(),
                group(shot.use()),
                shot.use().round(),
                shot.use().job());
    }

    /** A round and others that go by the same name are two groups. */
    private static String group(Shot.Use use) {
        return use.together().isEmpty() || !use.round()
                ? use.together()
                : use.together() + " (round)";
    }

    private static double seconds(MoveTimes times, Shot shot) {
        if (shot.use().seconds() > 0) {
            return shot.use().seconds();
        }
        return Math.max(1, shot.solo() ? times.solo() : times.shot());
    }

    private static Map<String, String> moved(Look look) {
        Map<String, String> moved = new HashMap<>();
        look.moved().forEach((light, placing) -> moved.put(light, placing.toString()));
        return moved;
    }

    /** How long changes take, by the plan. */
    public static Times times(ShootPlan plan) {
        MoveTimes t = plan.around().times();
        return new Times(
                most(t.key()),
                most(t.words()),
                most(t.people()),
                EACH_MORE_PERSON_SECONDS,
                most(t.lens()),
                most(t.camera()),
                most(t.light()),
                ROOM_SECONDS,
                TOGETHER_SHARE);
    }

    private static double most(double seconds) {
        return Math.min(600, seconds);
    }
}
