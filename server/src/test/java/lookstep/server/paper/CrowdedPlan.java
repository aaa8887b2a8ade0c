package lookstep.server.paper;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import lookstep.protocols.fixture.Fixture;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.server.TestPlans;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.House;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.Modifier;
import lookstep.server.plan.Person;
import lookstep.server.plan.Place;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plan.Surface;
import lookstep.simulator.model.scene.Arrangement;
import lookstep.simulator.model.scene.Arrangement.Kind;
import lookstep.simulator.model.space.Vec3;

/** Plans that are hard on paper. */
final class CrowdedPlan {
    private static final Surface GREY = new Surface(0.18, 0.18, 0.18);

    private CrowdedPlan() {}

    /** Many of everything; the lights hang close together on bars. */
    static ShootPlan of(int people, int shots, int lights, String nameFormat) {
        List<String> names = new ArrayList<>();
        for (int i = 1; i <= people; i++) {
            names.add(nameFormat.formatted(i));
        }
        List<Shot> all = new ArrayList<>();
        for (int i = 1; i <= shots; i++) {
            int many = 1 + (i * 7) % people;
            List<String> some = names.subList(0, many);
            Kind kind =
                    switch (i % 4) {
                        case 0 -> Kind.LINE;
                        case 1 -> Kind.WEDGE;
                        case 2 -> Kind.ZIGZAG;
                        default -> Kind.CLUSTER;
                    };
            all.add(
                    shot(
                            "s" + i,
                            "shot number " + i,
                            some,
                            new Arrangement(kind, i % 8 < 4, 0.55, 0, List.of())));
        }
        all.add(
                shot(
                        "everybody",
                        "everybody",
                        names,
                        new Arrangement(Kind.LINE, false, 0.55, 0, List.of())));
        return plan("Many of everything", names, lights(lights, "lamp %d on the bar"), all);
    }

    /** Hostile names everywhere a name can be. */
    static ShootPlan named(List<String> names) {
        List<Light> rig = new ArrayList<>();
        for (int i = 0; i < names.size(); i++) {
            rig.add(light(names.get(i), i));
        }
        List<Shot> shots = new ArrayList<>();
        for (int i = 0; i < names.size(); i++) {
            shots.add(
                    shot(
                            "s" + i,
                            names.get(i),
                            names,
                            new Arrangement(Kind.LINE, false, 0.55, 0, List.of())));
        }
        return plan(String.join(" ", names), names, rig, shots);
    }

    /** One shot of each kind, of five people. */
    static ShootPlan arrangements() {
        List<String> names = List.of("Zoe", "Abel", "Bea", "Cyril", "Dora");
        List<Shot> shots = new ArrayList<>();
        for (Kind kind : Kind.values()) {
            List<Integer> rows = kind == Kind.ROWS ? List.of(2, 3) : List.of();
            shots.add(
                    shot(
                            "s" + shots.size(),
                            "as a " + kind,
                            kind == Kind.SOLO ? names.subList(0, 1) : names,
                            new Arrangement(kind, true, 0.55, kind == Kind.ROWS ? 0.7 : 0, rows)));
        }
        return plan("Each arrangement", names, lights(2, "lamp %d"), shots);
    }

    private static List<Light> lights(int many, String nameFormat) {
        List<Light> rig = new ArrayList<>();
        for (int i = 0; i < many; i++) {
            rig.add(light(nameFormat.formatted(i + 1), i));
        }
        return rig;
    }

    private static Light light(String name, int i) {
        Fixture fixture = GenericFixtures.RGBWW;
        var mode = fixture.modes().get(fixture.modes().size() - 1);
        double x = -3 + 0.15 * i;
        return new Light(
                name,
                fixture,
                mode,
                1 + i / 20,
                1 + (i % 20) * mode.slots(),
                new Vec3(x, i % 3 == 0 ? 1.5 : -3, 3.5),
                new Vec3(0, 0, 1.5),
                new Modifier("softbox", 0.6, 0.5, 80, false));
    }

    private static Shot shot(String id, String name, List<String> people, Arrangement how) {
        return new Shot(
                id,
                name,
                id.equals("s1"),
                "only",
                people,
                how,
                35,
                6,
                1.5,
                "landscape 3:2",
                List.of("Look at " + name + " and hold still until I say so"),
                5,
                new Shot.Use(name, "", false, 0, "top"));
    }

    private static ShootPlan plan(
            String title, List<String> names, List<Light> rig, List<Shot> shots) {
        Map<String, Look.Setting> settings = new LinkedHashMap<>();
        rig.forEach(l -> settings.put(l.name(), TestPlans.percent(50, 4300)));
        return new ShootPlan(
                title,
                new Place(names.get(0), 8, 9, 4, 2.5, 0.04, 0.1, 0.2),
                new House(20, 3500),
                480,
                names.stream()
                        .map(n -> new Person(n, n, 1.7, GREY, GREY, GREY, GREY, "wears " + n))
                        .toList(),
                rig,
                List.of(
                        new Look(
                                "only",
                                new CameraSettings(8, 1 / 125.0, 3200, 4300),
                                0,
                                rig.get(0).name(),
                                settings)),
                shots);
    }
}
