package lookstep.server.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import lookstep.server.lighting.Lighting;
import lookstep.server.lighting.Nudging;
import lookstep.server.lighting.Shown;
import lookstep.server.live.Changes;
import lookstep.server.live.LiveState;
import lookstep.server.live.RigTest;
import lookstep.server.look.LightRange;
import lookstep.server.look.LightReport;
import lookstep.server.look.LightWords;
import lookstep.server.look.LookLevels;
import lookstep.server.look.Photometry;
import lookstep.server.patch.SlotWalk;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look.Setting;
import lookstep.server.plan.PlanWords;
import lookstep.server.plan.ShootPlan;
import lookstep.server.web.CrewMessage.LampPart;
import lookstep.server.web.CrewMessage.LightPart;
import lookstep.server.web.CrewMessage.OtherPart;
import lookstep.server.web.CrewMessage.TestPart;

/** What the lights do, in the words of the crew's message. Pure. */
final class LightParts {
    private static final double MIDDLE_METRES = 0.5;

    /** Less is not seen (common practice). */
    private static final long LEAST_MIRED = 5;

    private final ShootPlan plan;
    private final Lighting lighting;
    private final Nudging nudging;

    LightParts(Lighting lighting) {
        plan = lighting.plan();
        this.lighting = lighting;
        nudging = new Nudging(plan, lighting);
    }

    LightPart light(LiveState state, Shown shown) {
        boolean shot = state.position() > 0;
        String look = shown.planned().name();
        List<String> notes = new ArrayList<>(shown.worked().notes());
        notes.addAll(lighting.differences(shown));
        return new LightPart(
                what(shown),
                shot ? look : null,
                says(state, shown),
                plan.rig().stream().map(l -> lamp(state, shown, l)).toList(),
                state.changes().open(state.shot(), look),
                shot && state.changes().kept().containsKey(look),
                nudging.changes(shown.adjustment()),
                state.changes().undo().map(before -> undo(state, before)).orElse(null),
                Messages.camera(shown.look().camera()),
                shown.adjustment().cameraKelvin() > 0,
                shot ? lighting.steady(state, shown) : List.of(),
                notes);
    }

    /** The change that is taken back next, and on which shot if it is another. */
    private String undo(LiveState state, Changes.Before before) {
        return before.shot().equals(state.shot())
                ? before.says()
                : plan.shots().stream()
                        .filter(shot -> shot.id().equals(before.shot()))
                        .findFirst()
                        .map(shot -> before.says() + ", of ‘" + shot.name() + "’")
                        .orElse(before.says());
    }

    private static String what(Shown shown) {
        return switch (shown.what()) {
            case WORK_LIGHT -> "work light";
            case LOOK -> "look";
            case TEST -> "test";
            case PLATE -> "plate";
        };
    }

    private String says(LiveState state, Shown shown) {
        return switch (shown.what()) {
            case WORK_LIGHT ->
                    "work light, %s %%, %s K"
                            .formatted(
                                    PlanWords.number(plan.workLight().percent()),
                                    PlanWords.number(plan.workLight().kelvin()));
            case LOOK -> shown.planned().name();
            case TEST -> "test: " + tested(state.test().orElseThrow());
            case PLATE -> "plate: " + state.plates().run().orElseThrow().step().name();
        };
    }

    private LampPart lamp(LiveState state, Shown shown, Light light) {
        int index = plan.rig().indexOf(light);
        double candela = Photometry.intensity(light, shown.levels().of(index)).y();
        Optional<LightReport> report =
                shown.what() == Shown.What.LOOK
                        ? Optional.of(shown.worked().lights().get(index))
                        : Optional.empty();
        return new LampPart(
                light.name(),
                candela > 0,
                level(shown, light),
                report.map(LightParts::measured).orElseGet(() -> measured(light, candela)),
                report.map(LightParts::limits).orElse(""),
                Nudging.words(shown.adjustment().of(light.name())),
                nudging.can(state, light));
    }

    /** {@code 412 lx, 155 mired colder than the camera}; stops are said by the level. */
    private static String measured(LightReport report) {
        if (!report.on()) {
            return "";
        }
        LightReport.Given given = report.given().get();
        List<String> words = new ArrayList<>();
        if (given.amount().mostLux() > 0) {
            words.add(LightWords.lux(given.amount().lux()));
        }
        if (report.key()) {
            words.add(LightWords.stops(report));
        }
        long mired = Math.round(given.colour().miredFromCamera());
        if (given.colour().temperature().useful() && Math.abs(mired) >= LEAST_MIRED) {
            words.add(LightWords.mired(mired) + " than the camera");
        }
        words.removeIf(String::isEmpty);
        return String.join(", ", words);
    }

    private static String measured(Light light, double candela) {
        double lux = LookLevels.luxAtSubject(light, candela);
        return lux <= 0 ? "" : LightWords.lux(lux);
    }

    /** {@code from 4.2 under to 1.3 over the key}; empty if it does not reach the people. */
    private static String limits(LightReport report) {
        if (!report.on()) {
            return "";
        }
        LightReport.Amount a = report.given().get().amount();
        if (a.mostLux() <= 0) {
            return "";
        }
        boolean fromKey = !report.key() && Double.isFinite(a.leastStops());
        double least = fromKey ? a.leastStops() : LightRange.stops(a.lux(), a.leastLux());
        double most = fromKey ? a.mostStops() : LightRange.stops(a.lux(), a.mostLux());
        String what = fromKey ? "the key" : "what it gives";
        String to = most < 0 ? "to %.1f under %s" : "to %.1f over %s";
        String from = least < 0 ? "from %.1f under " : "from %.1f over ";
        return String.format(Locale.ROOT, from + to, Math.abs(least), Math.abs(most), what);
    }

    /** What a light does, in words. */
    String level(Shown shown, Light light) {
        if (shown.what() == Shown.What.LOOK) {
            Setting setting = shown.look().lights().get(light.name());
            return setting == null ? "off" : PlanWords.setting(setting);
        }
        double[] levels = shown.levels().of(plan.rig().indexOf(light));
        return Photometry.intensity(light, levels).y() > 0 ? "on" : "off";
    }

    /** The light or slot that is looked at alone; null if none is. */
    TestPart test(LiveState state, Shown shown) {
        if (shown.what() != Shown.What.TEST) {
            return null;
        }
        RigTest test = state.test().orElseThrow();
        Optional<SlotWalk.Step> step = lighting.step(test);
        return new TestPart(
                test.light(),
                test.universe(),
                test.slot(),
                tested(test) + step.map(s -> ": " + s.words()).orElse(""),
                expected(test, step),
                step.map(LightParts::others).orElse(List.of()));
    }

    private String expected(RigTest test, Optional<SlotWalk.Step> step) {
        if (step.isPresent()) {
            return step.get().expected();
        } else if (test.slot() > 0) {
            return "nothing: no light of the plan has this slot";
        }
        Light light = plan.light(test.light());
        return "%s alone, at %s; %s"
                .formatted(light.name(), where(light), PlanWords.address(light));
    }

    /** As somebody sees it who stands beside the camera. */
    private static String where(Light light) {
        double x = light.position().x();
        String side = x < -MIDDLE_METRES ? " left" : x > MIDDLE_METRES ? " right" : " middle";
        return (light.position().y() < 0 ? "the front" : "the back") + side;
    }

    private static List<OtherPart> others(SlotWalk.Step step) {
        return step.others().stream()
                .map(o -> new OtherPart(o.seen(), "it is set to " + o.set()))
                .toList();
    }

    private static String tested(RigTest test) {
        if (test.slot() == 0) {
            return test.light() + " alone";
        }
        String slot = "universe %d, slot %d alone".formatted(test.universe(), test.slot());
        return test.light().isEmpty() ? slot : test.light() + ", " + slot;
    }
}
