package lookstep.server.lighting;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import lookstep.server.live.Event.PlatesBegun;
import lookstep.server.live.LiveState;
import lookstep.server.live.PlateRun;
import lookstep.server.live.RigTest;
import lookstep.server.look.Adjusting;
import lookstep.server.look.Adjustment;
import lookstep.server.look.LookLevels;
import lookstep.server.look.RawSlots;
import lookstep.server.look.RigLevels;
import lookstep.server.look.RigPackets;
import lookstep.server.patch.SlotWalk;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.Look.Colour;
import lookstep.server.plan.Look.Level;
import lookstep.server.plan.Look.Setting;
import lookstep.server.plan.RigHash;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plan.ShotHash;

/** The state of the shoot becomes light. Safe for any thread. */
public final class Lighting {
    /** Quick enough to be felt as the answer to the key, slow enough not to startle. */
    private static final double NUDGE_SECONDS = 0.2;

    private static final double TEST_SECONDS = 0.3;
    private static final double PLATE_SECONDS = 0.3;
    public static final double WORK_LIGHT_SECONDS = 1;

    /** A light that is looked at alone and close by (common practice: dim while people set up). */
    private static final double TEST_PERCENT = 40;

    private static final int MOST_WORKED = 500;

    private final ShootPlan plan;
    private final RigLevels workLight;
    private final Map<String, String> hangsOn = new LinkedHashMap<>();

    private SlotWalk walk;

    private record Key(String look, Adjustment adjustment) {}

    private record Worked(Look look, LookLevels levels) {}

    /** Looks are worked out once: the oldest is let go. */
    private final Map<Key, Worked> worked =
            new LinkedHashMap<>() {
                @Override
                protected boolean removeEldestEntry(Map.Entry<Key, Worked> eldest) {
                    return size() > MOST_WORKED;
                }
            };

    public Lighting(ShootPlan plan) {
        this.plan = plan;
        workLight = LookLevels.of(plan, workLook()).levels();
        for (Look look : plan.looks()) {
            worked(look, Adjustment.NONE);
            hangsOn.put(look.name(), RigHash.of(plan.placed(look).rig()));
        }
    }

    /** The plan that this is the light of. */
    public ShootPlan plan() {
        return plan;
    }

    /** What is on in a state. */
    public Shown shown(LiveState state) {
        Look planned = planned(state);
        Adjustment adjustment =
                state.position() == 0
                        ? Adjustment.NONE
                        : state.changes().of(state.shot(), planned.name());
        Worked now = worked(planned, adjustment);
        Optional<RigTest> test = state.test().filter(this::possible);
        Optional<PlateRun> plates = state.plates().run().filter(this::possible);
        if (test.isPresent()) {
            return test(test.get(), planned, adjustment, now);
        } else if (plates.isPresent()) {
            return plate(plates.get(), planned, adjustment, now);
        } else if (state.position() == 0) {
            return new Shown(
                    Shown.What.WORK_LIGHT,
                    planned,
                    now.look(),
                    adjustment,
                    now.levels(),
                    workLight,
                    Optional.empty(),
                    WORK_LIGHT_SECONDS);
        }
        return new Shown(
                Shown.What.LOOK,
                planned,
                now.look(),
                adjustment,
                now.levels(),
                now.levels().levels(),
                Optional.empty(),
                planned.fadeSeconds());
    }

    /** What the lights cannot do of the looks as planned, in words. */
    public List<String> notes() {
        return plan.looks().stream()
                .flatMap(look -> worked(look, Adjustment.NONE).levels().notes().stream())
                .toList();
    }

    /** A look as it is for a shot in a state, whether that shot is on or not. */
    public Look look(LiveState state, Shot shot) {
        return worked(plan.look(shot.look()), state.changes().of(shot.id(), shot.look())).look();
    }

    /** What the lights do for a shot in a state, whether that shot is on or not. */
    public RigLevels levels(LiveState state, Shot shot) {
        return worked(plan.look(shot.look()), state.changes().of(shot.id(), shot.look()))
                .levels()
                .levels();
    }

    /**
     * How the picture differs from the planned one because the camera stays where it is or left and
     * right were swapped; empty if neither is so, or nobody will see it.
     */
    public List<String> differences(Shown shown) {
        Adjustment a = shown.adjustment();
        return a.cameraKelvin() == 0 && !a.swapped()
                ? List.of()
                : Differences.words(
                        plan.placed(shown.planned()),
                        shown,
                        worked(shown.planned(), Adjustment.NONE).levels(),
                        worked(shown.planned(), a.ofTheWhole()).levels());
    }

    /**
     * Colour temperatures at which the camera could stay for this shot: that of the shot before it
     * and that of the safe shot, unless the look wants just that.
     */
    public List<Double> steady(LiveState state, Shown shown) {
        if (shown.adjustment().cameraKelvin() > 0) {
            return List.of();
        }
        List<String> order = state.course().order();
        int before = Math.max(0, state.position() - 2);
        return Stream.of(shotAt(order, before), plan.shots().get(0))
                .map(shot -> look(state, shot).camera().kelvin())
                .filter(kelvin -> kelvin != shown.look().camera().kelvin())
                .distinct()
                .toList();
    }

    /** The walk from slot to slot; made when it is first asked for. */
    public synchronized SlotWalk walk() {
        if (walk == null) {
            walk = SlotWalk.of(plan);
        }
        return walk;
    }

    /** The step of the walk that a test is; empty for a whole light, and for a slot of none. */
    public Optional<SlotWalk.Step> step(RigTest test) {
        return TestSlots.step(walk(), test);
    }

    /** How long from one to the other: a new look takes its own time, a nudge is quick. */
    public static double fadeSeconds(Shown before, Shown next) {
        boolean nudged =
                before.what() == Shown.What.LOOK
                        && next.what() == Shown.What.LOOK
                        && before.planned().name().equals(next.planned().name());
        return nudged ? Math.min(NUDGE_SECONDS, next.fadeSeconds()) : next.fadeSeconds();
    }

    /** The work light, as levels. */
    public RigLevels workLight() {
        return workLight;
    }

    private synchronized Worked worked(Look planned, Adjustment adjustment) {
        return worked.computeIfAbsent(
                new Key(planned.name(), adjustment),
                key -> {
                    Look look = Adjusting.of(plan, planned, adjustment);
                    return new Worked(look, LookLevels.of(plan, look));
                });
    }

    /** The plan may have been edited since. */
    private boolean possible(RigTest test) {
        return test.slot() > 0
                || plan.rig().stream().anyMatch(light -> light.name().equals(test.light()));
    }

    private boolean possible(PlateRun run) {
        return edited(run.begun()).isEmpty();
    }

    /**
     * What was edited of what plates hang on, in words; empty if nothing was. A look that is gone
     * takes nothing from them as long as the lights stand anywhere as they were.
     */
    public Optional<String> edited(PlatesBegun begun) {
        boolean sameRig =
                hangsOn.containsKey(begun.look())
                        ? begun.hangsOn().equals(hangsOn.get(begun.look()))
                        : hangsOn.containsValue(begun.hangsOn())
                                || begun.hangsOn().equals(RigHash.of(plan.rig()));
        if (!sameRig) {
            return Optional.of("the rig was edited");
        }
        return begun.standsOn().isEmpty()
                ? Optional.empty()
                : plan.shot(begun.shot())
                        .map(shot -> ShotHash.of(plan, shot, begun.standIn()))
                        .filter(now -> !now.equals(begun.standsOn()))
                        .map(now -> "the shot or the place was edited");
    }

    /**
     * What plates hang on with the lights where this look has them, as a hash; empty if there is no
     * such look.
     */
    public Optional<String> hangsOn(String look) {
        return Optional.ofNullable(hangsOn.get(look));
    }

    /** The light of the step, the camera as all its frames have it. */
    private static Shown plate(PlateRun run, Look planned, Adjustment adjustment, Worked now) {
        return new Shown(
                Shown.What.PLATE,
                planned,
                now.look().taken(run.begun().camera()),
                adjustment,
                now.levels(),
                run.step().rig(),
                Optional.empty(),
                PLATE_SECONDS);
    }

    /** Before the first shot: the one that comes. */
    private Look planned(LiveState state) {
        return plan.look(shot(state).look());
    }

    /** The current shot; before the first the one that comes. */
    public Shot shot(LiveState state) {
        return plan.shot(state.shot())
                .orElseGet(() -> shotAt(state.course().order(), Math.max(1, state.position()) - 1));
    }

    /** The plan may be newer than the order. */
    private Shot shotAt(List<String> order, int index) {
        if (order.isEmpty()) {
            return plan.shots().get(Math.min(index, plan.shots().size() - 1));
        }
        return (index < order.size() ? plan.shot(order.get(index)) : Optional.<Shot>empty())
                .orElse(plan.shots().get(0));
    }

    private Look workLook() {
        Setting setting =
                new Setting(
                        new Level.Percent(plan.workLight().percent()),
                        new Colour.Temperature(plan.workLight().kelvin()));
        Map<String, Setting> lights = new LinkedHashMap<>();
        plan.rig().forEach(light -> lights.put(light.name(), setting));
        return new Look(
                "work light",
                plan.looks().get(0).camera(),
                WORK_LIGHT_SECONDS,
                plan.rig().get(0).name(),
                lights);
    }

    private Shown test(RigTest test, Look planned, Adjustment adjustment, Worked now) {
        Optional<RawSlots> raw =
                test.slot() == 0 ? Optional.empty() : Optional.of(TestSlots.of(walk(), test));
        RigLevels levels =
                raw.map(r -> RigPackets.levels(plan, r.universe(), r.slots()))
                        .orElseGet(() -> alone(plan.light(test.light()), now.look()));
        return new Shown(
                Shown.What.TEST,
                planned,
                now.look(),
                adjustment,
                now.levels(),
                levels,
                raw,
                TEST_SECONDS);
    }

    private RigLevels alone(Light light, Look look) {
        Setting setting =
                new Setting(
                        new Level.Percent(TEST_PERCENT),
                        new Colour.Temperature(look.camera().kelvin()));
        return LookLevels.of(
                        plan,
                        new Look(
                                "test",
                                look.camera(),
                                TEST_SECONDS,
                                light.name(),
                                Map.of(light.name(), setting)))
                .levels();
    }
}
