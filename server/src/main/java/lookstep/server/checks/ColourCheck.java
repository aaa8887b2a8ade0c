package lookstep.server.checks;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import lookstep.server.look.LightReport;
import lookstep.server.look.LightReport.Given;
import lookstep.server.look.LookLevels;
import lookstep.server.plan.Look;
import lookstep.server.plan.Look.Colour.Temperature;
import lookstep.server.plan.PlanWords;
import lookstep.server.plan.ShootPlan;
import lookstep.simulator.model.colour.ColourTemperature;
import lookstep.simulator.model.colour.Mired;

/**
 * How each light of a look and the house come out through the camera's white balance, and which
 * mixes nobody meant. Equal steps of mired look about equal.
 */
final class ColourCheck {
    /** Up to here a light is neutral: about what a filter of an eighth does (figure of our own). */
    static final double NEUTRAL_MIRED = 20;

    /** Lights that are meant alike may differ by this much (figure of our own). */
    static final double ALIKE_MIRED = 10;

    /** And by this much in Duv: it is seen on a white wall (common practice). */
    static final double ALIKE_DUV = 0.003;

    /** Less than this is no contrast of warm and cold, only an oversight (figure of our own). */
    static final double CONTRAST_MIRED = 40;

    /** House light this far under the key still tints the shadows (figure of our own). */
    static final double HOUSE_STOPS = 3;

    private ColourCheck() {}

    static List<Finding> of(ShootPlan plan, Look look) {
        LookLevels levels = LookLevels.of(plan, look);
        double camera = look.camera().kelvin();
        Numbers numbers = new Numbers().put("cameraKelvin", camera);
        List<String> parts = new ArrayList<>();
        List<LightReport> on = levels.lights().stream().filter(LightReport::on).toList();
        for (LightReport light : on) {
            Given given = light.given().orElseThrow();
            ColourTemperature t = given.colour().temperature();
            if (t.useful()) {
                numbers.put("mired " + light.light(), given.colour().miredFromCamera())
                        .put("duv " + light.light(), t.duv());
                parts.add("‘" + light.light() + "’ " + word(given.colour().miredFromCamera()));
            } else {
                numbers.put("seen " + light.light(), given.colour().seen());
                parts.add("‘" + light.light() + "’ " + given.colour().seen());
            }
        }
        double house = Mired.shift(camera, plan.house().kelvin());
        if (plan.house().lux() > 0) {
            numbers.put("mired house", house).put("lux house", plan.house().lux());
            parts.add("the house light " + word(house));
        }
        List<Finding> all = new ArrayList<>();
        all.add(
                new Finding(
                        Kind.COLOUR,
                        Weight.GOOD,
                        Subject.look(look.name()),
                        "with the camera at "
                                + PlanWords.number(camera)
                                + " K "
                                + String.join(", ", parts),
                        numbers.all(),
                        Optional.empty()));
        mixes(look, on, all);
        house(plan, look, on, house, all);
        return all;
    }

    /** {@code neutral}; {@code cold by 155 mired}. */
    static String word(double mired) {
        return Math.abs(mired) <= NEUTRAL_MIRED
                ? "neutral"
                : Words.text("%s by %.0f mired", mired > 0 ? "warm" : "cold", Math.abs(mired));
    }

    /** Lights that are meant alike, and those that are neither alike nor a contrast. */
    private static void mixes(Look look, List<LightReport> on, List<Finding> all) {
        List<LightReport> white =
                on.stream()
                        .filter(l -> look.lights().get(l.light()).colour() instanceof Temperature)
                        .toList();
        Set<String> said = new HashSet<>();
        for (LightReport first : white) {
            if (said.contains(first.light())) {
                continue;
            }
            List<LightReport> alike =
                    white.stream().filter(l -> meantAlike(look, first, l)).toList();
            alike.forEach(l -> said.add(l.light()));
            unlike(look, alike).ifPresent(all::add);
        }
        for (int i = 0; i < white.size(); i++) {
            for (int j = i + 1; j < white.size(); j++) {
                neither(look, white.get(i), white.get(j)).ifPresent(all::add);
            }
        }
    }

    private static Temperature wanted(Look look, LightReport light) {
        return (Temperature) look.lights().get(light.light()).colour();
    }

    private static boolean meantAlike(Look look, LightReport a, LightReport b) {
        Temperature p = wanted(look, a);
        Temperature q = wanted(look, b);
        return Math.abs(Mired.shift(p.kelvin(), q.kelvin())) <= ALIKE_MIRED
                && Math.abs(p.duv() - q.duv()) < ALIKE_DUV;
    }

    private static ColourTemperature given(LightReport light) {
        return light.given().orElseThrow().colour().temperature();
    }

    private static boolean comeAlike(LightReport a, LightReport b) {
        return Math.abs(Mired.shift(given(a).kelvin(), given(b).kelvin())) <= ALIKE_MIRED
                && Math.abs(given(a).duv() - given(b).duv()) <= ALIKE_DUV;
    }

    /** Of lights that are meant alike: those that come out like the first, and the others. */
    private static Optional<Finding> unlike(Look look, List<LightReport> alike) {
        LightReport first = alike.get(0);
        List<LightReport> others = alike.stream().filter(l -> !comeAlike(first, l)).toList();
        if (others.isEmpty()) {
            return Optional.empty();
        }
        List<LightReport> same = alike.stream().filter(l -> comeAlike(first, l)).toList();
        LightReport other = others.get(0);
        double mired = Mired.shift(given(first).kelvin(), given(other).kelvin());
        double duv = given(other).duv() - given(first).duv();
        boolean firstIsOff =
                Math.abs(given(first).duv() - wanted(look, first).duv())
                        >= Math.abs(given(other).duv() - wanted(look, other).duv());
        List<LightReport> follow = firstIsOff ? others : same;
        ColourTemperature target = given(firstIsOff ? first : other);
        double tint = Math.round(target.duv() * 1000) / 1000.0;
        double kelvin = Math.round(target.kelvin() / 10) * 10.0;
        List<Change> changes = new ArrayList<>();
        for (LightReport l : follow) {
            changes.add(new Change(Paths.setting(look.name(), l.light(), "kelvin"), kelvin));
            changes.add(new Change(Paths.setting(look.name(), l.light(), "duv"), tint));
        }
        String names = Words.quoted(follow.stream().map(LightReport::light).toList());
        return Optional.of(
                new Finding(
                        Kind.COLOUR,
                        Weight.LOOK,
                        Subject.look(look.name()).ofLight(other.light()),
                        Words.text(
                                "%s and %s are meant alike; %s come%s out %.0f mired and %.3f Duv"
                                        + " %s",
                                Words.quoted(same.stream().map(LightReport::light).toList()),
                                Words.quoted(others.stream().map(LightReport::light).toList()),
                                others.size() == 1 ? "the last" : "the last " + others.size(),
                                others.size() == 1 ? "s" : "",
                                Math.abs(mired),
                                Math.abs(duv),
                                duv > 0 ? "greener" : "pinker"),
                        new Numbers()
                                .put("givenMired", mired)
                                .put("givenDuv", duv)
                                .put("alikeMired", ALIKE_MIRED)
                                .put("alikeDuv", ALIKE_DUV)
                                .all(),
                        Optional.of(
                                new Mend(
                                        Words.text(
                                                "kelvin: %.0f and duv: %s for %s, if %s can make it;"
                                                        + " or filter the others",
                                                kelvin,
                                                PlanWords.number(tint),
                                                names,
                                                follow.size() == 1 ? "it" : "they"),
                                        changes))));
    }

    private static Optional<Finding> neither(Look look, LightReport a, LightReport b) {
        double meant = Math.abs(Mired.shift(wanted(look, a).kelvin(), wanted(look, b).kelvin()));
        if (meant <= ALIKE_MIRED || meant >= CONTRAST_MIRED) {
            return Optional.empty();
        }
        double kelvin = wanted(look, a).kelvin();
        return Optional.of(
                new Finding(
                        Kind.COLOUR,
                        Weight.LOOK,
                        Subject.look(look.name()).ofLight(b.light()),
                        Words.text(
                                "‘%s’ and ‘%s’ are %.0f mired apart: too much for the same light,"
                                        + " too little for warm against cold",
                                a.light(), b.light(), meant),
                        new Numbers()
                                .put("meantMired", meant)
                                .put("alikeMired", ALIKE_MIRED)
                                .put("contrastMired", CONTRAST_MIRED)
                                .all(),
                        Optional.of(
                                new Mend(
                                        Words.text(
                                                "write %s K for both, or keep them %.0f mired apart",
                                                PlanWords.number(kelvin), CONTRAST_MIRED),
                                        List.of(
                                                new Change(
                                                        Paths.setting(
                                                                look.name(), b.light(), "kelvin"),
                                                        kelvin))))));
    }

    private static void house(
            ShootPlan plan, Look look, List<LightReport> on, double mired, List<Finding> all) {
        double key =
                on.stream()
                        .filter(LightReport::key)
                        .flatMap(l -> l.given().stream())
                        .mapToDouble(g -> g.amount().lux())
                        .findFirst()
                        .orElse(0);
        double under = Words.log2(key / plan.house().lux());
        if (plan.house().lux() <= 0 || Math.abs(mired) <= NEUTRAL_MIRED || !(under < HOUSE_STOPS)) {
            return;
        }
        all.add(
                new Finding(
                        Kind.COLOUR,
                        Weight.LOOK,
                        Subject.look(look.name()),
                        Words.text(
                                "the house light (%.0f lx at %s K) is %s and only %s under the key:"
                                        + " it tints what the lights leave dark",
                                plan.house().lux(),
                                PlanWords.number(plan.house().kelvin()),
                                word(mired),
                                Words.stops(under)),
                        new Numbers()
                                .put("houseUnderKeyStops", under)
                                .put("houseMired", mired)
                                .put("worthSayingWithinStops", HOUSE_STOPS)
                                .all(),
                        Optional.of(
                                Mend.words(
                                        Words.text(
                                                "turn it off, or %s more light from the key and a"
                                                        + " shorter exposure",
                                                Words.stops(HOUSE_STOPS - under))))));
    }
}
