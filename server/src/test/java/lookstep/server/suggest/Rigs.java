package lookstep.server.suggest;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plan.file.DemoShoot;
import lookstep.server.plan.file.PlanReader;
import lookstep.server.plan.file.PlanReading;

/** Plans to suggest looks for. */
final class Rigs {
    private Rigs() {}

    /** The demo shoot, with four lights. */
    static ShootPlan four() {
        return DemoShoot.read(GenericFixtures.all()).at("");
    }

    /** The demo shoot with four lights more. */
    static ShootPlan eight() {
        List<String> more = new ArrayList<>();
        double[][] places = {{3.2, 1.6, 2.7}, {-2.6, 0, 1.9}, {2.6, 0, 1.9}, {0, -3, 2.8}};
        String[] names = {"rim right", "side left", "side right", "front"};
        for (int i = 0; i < names.length; i++) {
            more.add(
                    String.format(
                            Locale.ROOT,
                            "  - {name: %s, fixture: %s, mode: 16-bit, universe: 2, slot: %d,"
                                    + " position: [%.1f, %.1f, %.1f], aim: [0, 0.2, 1.5]}",
                            names[i],
                            i == 3 ? "bi-colour" : "rgbw",
                            1 + 20 * i,
                            places[i][0],
                            places[i][1],
                            places[i][2]));
        }
        return read(
                DemoShoot.text()
                        .replace(
                                "# A light has 'percent'",
                                String.join("\n", more) + "\n\n# A light has 'percent'"));
    }

    /** Two bi-colour lights and one person. */
    static ShootPlan two() {
        return read(
                """
                title: Two lights
                place: {name: a cellar, width: 6, depth: 8, height: 3.2, background: {distance: 2, reflectance: 0.1}}
                house: {lux: 1, kelvin: 3000}
                window: 5 min
                camera: {f: 5.6, time: 1/100, iso: 1600, kelvin: 4300}
                people:
                  - {name: Petra, plays: voice, height: 1.7, skin: light}
                rig:
                  - {name: left, fixture: bi-colour, mode: 16-bit, slot: 1, position: [-2, -2, 2.2]}
                  - {name: right, fixture: bi-colour, mode: 16-bit, slot: 11, position: [2, -2, 2.2]}
                looks:
                  - {name: safe, lights: {left: {percent: 50}, right: {percent: 50}}}
                shots:
                  - {name: Petra, safe: true, look: safe, arrangement: solo, lens: 50, distance: 3}
                """);
    }

    static ShootPlan read(String text) {
        PlanReading reading =
                new PlanReader(GenericFixtures.all()).read(text.getBytes(StandardCharsets.UTF_8));
        if (reading instanceof PlanReading.Bad bad) {
            throw new IllegalArgumentException(bad.errors().get(0).text("plan"));
        }
        return ((PlanReading.Good) reading).plan().at("");
    }

    static Shot first(ShootPlan plan) {
        return plan.shots().get(0);
    }

    static Search search(ShootPlan plan, Options options) {
        ModelledPlates modelled = ModelledPlates.of(plan, first(plan));
        return Search.of(modelled.plates(), modelled.cast(), plan, first(plan), options);
    }
}
