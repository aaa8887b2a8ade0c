package lookstep.server.checks;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
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

    private static void mixes(Look look, List<LightReport> on, List<Finding> all) {
        for (int i = 0; i < on.size(); i++) {
            for (int j = i + 1; j < on.size(); j++) {
                pair(look, on.get(i), on.get(j)).ifPresent(all::add);
            }
        }
    }

    private static Optional<Finding> pair(Look look, LightReport a, LightReport b) {
        if (!(look.lights().get(a.light()).colour() instanceof Temperature wantedA)
                || !(look.lights().get(b.light()).colour() instanceof Temperature wantedB)) {
            return Optional.empty();
        }
        ColourTemperature givenA = a.given().orElseThrow().colour().temperature();
        ColourTemperature givenB = b.given().orElseThrow().colour().temperature();
        double meant = Math.abs(Mired.shift(wantedA.kelvin(), wantedB.kelvin()));
        double comes = Math.abs(Mired.shift(givenA.kelvin(), givenB.kelvin()));
        double duv = Math.abs(givenA.duv() - givenB.duv());
        Numbers numbers =
                new Numbers()
                        .put("meantMired", meant)
                        .put("givenMired", comes)
                        .put("givenDuv", duv)
                        .put("alikeMired", ALIKE_MIRED)
                        .put("alikeDuv", ALIKE_DUV)
                        .put("contrastMired", CONTRAST_MIRED);
        boolean alike = meant <= ALIKE_MIRED && Math.abs(wantedA.duv() - wantedB.duv()) < ALIKE_DUV;
        if (alike && (comes > ALIKE_MIRED || duv > ALIKE_DUV)) {
            boolean firstOff =
                    Math.abs(givenA.duv() - wantedA.duv())
                            >= Math.abs(givenB.duv() - wantedB.duv());
            LightReport off = firstOff ? a : b;
            LightReport other = firstOff ? b : a;
            Temperature asked = firstOff ? wantedB : wantedA;
            ColourTemperature target = firstOff ? givenA : givenB;
            double tint = Math.round(target.duv() * 1000) / 1000.0;
            String says =
                    Words.text(
                            "‘%s’ and ‘%s’ are meant alike and come out %.0f mired and %.3f Duv"
                                    + " apart: ‘%s’ is %s",
                            a.light(),
                            b.light(),
                            comes,
                            duv,
                            off.light(),
                            target.duv() < 0 ? "pinker" : "greener");
            return Optional.of(
                    new Finding(
                            Kind.COLOUR,
                            Weight.LOOK,
                            Subject.look(look.name()).ofLight(off.light()),
                            says,
                            numbers.all(),
                            Optional.of(
                                    new Mend(
                                            Words.text(
                                                    "give ‘%s’ the same tint, duv: %s, if it can"
                                                            + " make it, or filter ‘%s’",
                                                    other.light(),
                                                    PlanWords.number(tint),
                                                    off.light()),
                                            List.of(
                                                    new Change(
                                                            Paths.setting(
                                                                    look.name(),
                                                                    other.light(),
                                                                    "kelvin"),
                                                            asked.kelvin()),
                                                    new Change(
                                                            Paths.setting(
                                                                    look.name(),
                                                                    other.light(),
                                                                    "duv"),
                                                            tint))))));
        }
        if (meant > ALIKE_MIRED && meant < CONTRAST_MIRED) {
            return Optional.of(
                    new Finding(
                            Kind.COLOUR,
                            Weight.LOOK,
                            Subject.look(look.name()).ofLight(b.light()),
                            Words.text(
                                    "‘%s’ and ‘%s’ are %.0f mired apart: too much for the same"
                                            + " light, too little for warm against cold",
                                    a.light(), b.light(), meant),
                            numbers.all(),
                            Optional.of(
                                    new Mend(
                                            Words.text(
                                                    "write %s K for both, or keep them %.0f mired"
                                                            + " apart",
                                                    PlanWords.number(wantedA.kelvin()),
                                                    CONTRAST_MIRED),
                                            List.of(
                                                    new Change(
                                                            Paths.setting(
                                                                    look.name(),
                                                                    b.light(),
                                                                    "kelvin"),
                                                            wantedA.kelvin()))))));
        }
        return Optional.empty();
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
        if (plan.house().lux() <= 0
                || Math.abs(mired) <= NEUTRAL_MIRED
                || !(under < HOUSE_STOPS)) {
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
