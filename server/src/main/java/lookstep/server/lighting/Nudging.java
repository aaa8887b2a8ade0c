package lookstep.server.lighting;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import lookstep.server.live.Event;
import lookstep.server.live.LiveState;
import lookstep.server.live.NotPossible;
import lookstep.server.look.Adjusting;
import lookstep.server.look.Adjustment;
import lookstep.server.look.LeftRight;
import lookstep.server.look.LightReport;
import lookstep.server.look.Nudge;
import lookstep.server.look.Nudge.Power;
import lookstep.server.look.Photometry;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look.Colour;
import lookstep.server.plan.Look.Setting;
import lookstep.server.plan.PlanWords;
import lookstep.server.plan.ShootPlan;
import lookstep.simulator.model.colour.ColourTemperature;
import lookstep.simulator.model.colour.Mired;
import lookstep.simulator.model.colour.Xyz;

/** Presses that change the light of the shot that is on. Each gives the event, or says why not. */
public final class Nudging {
    /** A third of a stop: one click of a camera's dial (common practice). */
    public static final double STOPS = 1.0 / 3;

    /** About the least shift of white that is seen side by side (common practice). */
    public static final double MIRED = 10;

    /** Less than this is not worth a press. */
    private static final double LEAST_STOPS = 0.04;

    private static final double LEAST_MIRED = 2;

    private final ShootPlan plan;
    private final Lighting lighting;

    public Nudging(ShootPlan plan, Lighting lighting) {
        this.plan = plan;
        this.lighting = lighting;
    }

    /** What can be pressed for one light now, in the words of the presses. */
    public List<String> can(LiveState state, Light light) {
        List<String> can = new ArrayList<>();
        ifPossible(can, "brighter", () -> brighter(state, light, STOPS));
        ifPossible(can, "darker", () -> brighter(state, light, -STOPS));
        ifPossible(can, "warmer", () -> warmer(state, light, MIRED));
        ifPossible(can, "colder", () -> warmer(state, light, -MIRED));
        ifPossible(can, "off", () -> power(state, light, false));
        ifPossible(can, "on", () -> power(state, light, true));
        return can;
    }

    private interface Try {
        Event event() throws NotPossible;
    }

    private static void ifPossible(List<String> can, String word, Try press) {
        try {
            press.event();
            can.add(word);
        } catch (NotPossible notNow) {
            // then it is not offered
        }
    }

    /**
     * Brighter, or darker below 0; as far as the light goes.
     *
     * @throws NotPossible if it is at its most or least, or off
     */
    public Event brighter(LiveState state, Light light, double stops) throws NotPossible {
        Shown now = lit(state, light);
        double byStops = stops > 0 ? up(now, light, stops) : down(now, light, stops);
        Adjustment a = now.adjustment();
        return nudged(
                state,
                a.with(light.name(), a.of(light.name()).brighter(byStops)),
                light.name() + " " + stopsWords(byStops));
    }

    private double up(Shown now, Light light, double stops) throws NotPossible {
        double room = Math.log(1 / share(now, light)) / Math.log(2);
        if (room < LEAST_STOPS) {
            throw new NotPossible(
                    "‘%s’ is at its most; bring it nearer, or take the others down"
                            .formatted(light.name()));
        }
        return Math.min(stops, room);
    }

    private double down(Shown now, Light light, double stops) throws NotPossible {
        double floor = light.mode().floor(light.fixture().curve());
        double room = Math.log(share(now, light) / floor) / Math.log(2);
        if (room < LEAST_STOPS) {
            throw new NotPossible(
                    "‘%s’ is at its least; switch it off, or move it away".formatted(light.name()));
        }
        return Math.max(stops, -room);
    }

    /**
     * How much of its most in this colour the light is asked for, above 0, at most 1. Not what its
     * slots make of it, for several presses may go by within one code; where nothing is asked at
     * the people, what they make of it all the same.
     */
    private double share(Shown now, Light light) {
        int index = plan.rig().indexOf(light);
        LightReport report = now.worked().lights().get(index);
        double asked =
                report.given()
                        .map(g -> g.amount().wantedLux() / g.amount().mostLux())
                        .filter(Double::isFinite)
                        .orElseGet(() -> given(now, light, index));
        return Math.max(1e-9, Math.min(1, asked));
    }

    private static double given(Shown now, Light light, int index) {
        double[] levels = now.worked().levels().of(index);
        return Photometry.intensity(light, levels).y() / Adjusting.full(now.look(), light).y();
    }

    /**
     * Warmer, or colder below 0.
     *
     * @throws NotPossible if it is off, no white, or at the end of its whites
     */
    public Event warmer(LiveState state, Light light, double mired) throws NotPossible {
        Shown now = lit(state, light);
        Setting setting = now.look().lights().get(light.name());
        if (!(setting.colour() instanceof Colour.Temperature)) {
            throw new NotPossible(
                    "‘%s’ has a colour, and only whites go warmer or colder"
                            .formatted(light.name()));
        }
        Colour next = Adjusting.warmer(setting.colour(), mired).orElseThrow();
        double moved =
                mired(now, light, next, setting) - mired(now, light, setting.colour(), setting);
        if (Math.signum(mired) * moved < LEAST_MIRED) {
            throw new NotPossible(
                    "‘%s’ is at its %s".formatted(light.name(), mired > 0 ? "warmest" : "coldest"));
        }
        Adjustment a = now.adjustment();
        return nudged(
                state,
                a.with(light.name(), a.of(light.name()).warmer(mired)),
                light.name() + " " + miredWords(mired));
    }

    /** What comes out when the colour is asked for. */
    private double mired(Shown now, Light light, Colour colour, Setting setting) {
        Xyz out = Adjusting.full(now.look().camera(), light, colour, setting.blend());
        return Mired.of(ColourTemperature.of(out.chromaticity()).kelvin());
    }

    /**
     * Off, or on: as it was, or a stop under the key if the look leaves it off.
     *
     * @throws NotPossible if it is so already
     */
    public Event power(LiveState state, Light light, boolean on) throws NotPossible {
        Shown now = look(state);
        if (isOn(now, light) == on) {
            throw new NotPossible("‘%s’ is %s already".formatted(light.name(), on ? "on" : "off"));
        }
        Adjustment a = now.adjustment();
        Nudge nudge = a.of(light.name());
        Power power = on ? Power.ON : Power.OFF;
        if (nudge.power() != Power.AS_PLANNED) {
            power = Power.AS_PLANNED;
        }
        return nudged(
                state,
                a.with(light.name(), nudge.power(power)),
                light.name() + (on ? " on" : " off"));
    }

    /**
     * Left and right exchange what they do.
     *
     * @throws NotPossible if no light has a counterpart
     */
    public Event swap(LiveState state) throws NotPossible {
        Map<String, String> pairs =
                LeftRight.counterparts(plan.placed(look(state).planned()).rig());
        if (pairs.isEmpty()) {
            throw new NotPossible("no light stands opposite another, left and right");
        }
        return nudged(state, look(state).adjustment().swap(pairs), "left and right swapped");
    }

    /**
     * The camera stays, and the lights make up for it; 0 is as planned.
     *
     * @throws NotPossible if the look wants just that
     */
    public Event steady(LiveState state, double kelvin) throws NotPossible {
        Shown now = look(state);
        boolean planned = kelvin == 0 || kelvin == now.planned().camera().kelvin();
        double next = planned ? 0 : kelvin;
        if (next == now.adjustment().cameraKelvin()) {
            throw new NotPossible(
                    "this look has the camera at %s K already"
                            .formatted(PlanWords.number(now.look().camera().kelvin())));
        }
        return nudged(
                state,
                now.adjustment().cameraAt(next),
                planned
                        ? "camera as planned"
                        : "camera stays at %s K".formatted(PlanWords.number(kelvin)));
    }

    /**
     * The changes become the look's.
     *
     * @throws NotPossible if there are none
     */
    public Event keep(LiveState state) throws NotPossible {
        Shown now = look(state);
        if (!state.changes().open(state.shot(), now.planned().name())) {
            throw new NotPossible("nothing is changed that is not kept");
        }
        String look = now.planned().name();
        return new Event.Kept(state.shot(), look, "kept in ‘%s’".formatted(look));
    }

    /**
     * The changes are forgotten; without any, those kept in the look.
     *
     * @throws NotPossible if there are none of either
     */
    public Event forget(LiveState state) throws NotPossible {
        Shown now = look(state);
        String look = now.planned().name();
        boolean open = state.changes().open(state.shot(), look);
        if (!open && !state.changes().kept().containsKey(look)) {
            throw new NotPossible("the look is as planned");
        }
        return new Event.Forgotten(
                state.shot(), look, open ? "forgotten" : "‘%s’ as planned".formatted(look));
    }

    /**
     * The newest change is taken back.
     *
     * @throws NotPossible if there is none
     */
    public Event undo(LiveState state) throws NotPossible {
        look(state);
        if (state.changes().undo().isEmpty()) {
            throw new NotPossible("there is nothing to take back");
        }
        return new Event.Undone();
    }

    /** All that is otherwise than planned, in words. */
    public List<String> changes(Adjustment adjustment) {
        List<String> words = new ArrayList<>();
        if (adjustment.swapped()) {
            words.add("left and right swapped");
        }
        if (adjustment.cameraKelvin() > 0) {
            words.add(
                    "camera stays at %s K".formatted(PlanWords.number(adjustment.cameraKelvin())));
        }
        for (Light light : plan.rig()) {
            String changed = words(adjustment.of(light.name()));
            if (!changed.isEmpty()) {
                words.add(light.name() + " " + changed);
            }
        }
        return words;
    }

    /** How one light is otherwise than planned; empty if it is not. */
    public static String words(Nudge nudge) {
        if (nudge.power() == Power.OFF) {
            return "off";
        }
        List<String> words = new ArrayList<>();
        if (nudge.power() == Power.ON) {
            words.add("on");
        }
        if (nudge.stops() != 0) {
            words.add(stopsWords(nudge.stops()));
        }
        if (nudge.mired() != 0) {
            words.add(miredWords(nudge.mired()));
        }
        return String.join(", ", words);
    }

    private static String stopsWords(double stops) {
        double size = Math.abs(stops);
        long thirds = Math.round(size * 3);
        boolean whole = Math.abs(size * 3 - thirds) < 0.02;
        String many =
                whole && thirds % 3 == 0
                        ? thirds / 3 + (thirds == 3 ? " stop" : " stops")
                        : whole
                                ? (thirds < 3 ? "" : thirds / 3 + " ")
                                        + thirds % 3
                                        + "/3 stop"
                                        + (thirds < 3 ? "" : "s")
                                : String.format(Locale.ROOT, "%.2f stop", size);
        return many + (stops > 0 ? " up" : " down");
    }

    private static String miredWords(double mired) {
        return PlanWords.number(Math.abs(mired)) + " mired " + (mired > 0 ? "warmer" : "colder");
    }

    private Shown lit(LiveState state, Light light) throws NotPossible {
        Shown now = look(state);
        if (!isOn(now, light)) {
            throw new NotPossible("‘%s’ is off; switch it on first".formatted(light.name()));
        }
        return now;
    }

    /** A light that is planned at no level at all is off as well. */
    private boolean isOn(Shown now, Light light) {
        return now.worked().lights().get(plan.rig().indexOf(light)).on();
    }

    private Shown look(LiveState state) throws NotPossible {
        Shown now = lighting.shown(state);
        if (now.what() == Shown.What.WORK_LIGHT) {
            throw new NotPossible("the work light is on; step to a shot first");
        } else if (now.what() == Shown.What.TEST) {
            throw new NotPossible("a light is being tested; end the test first");
        } else if (now.what() == Shown.What.PLATE) {
            throw new NotPossible("plates are being taken; give them up first");
        }
        return now;
    }

    private Event nudged(LiveState state, Adjustment adjustment, String says) {
        String look = lighting.shown(state).planned().name();
        return new Event.Nudged(state.shot(), look, adjustment, says);
    }
}
