package lookstep.server;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import lookstep.protocols.fixture.DimmingCurve;
import lookstep.protocols.fixture.Emitter;
import lookstep.protocols.fixture.Fixture;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.protocols.fixture.Mode;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.House;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.Look.Colour.Temperature;
import lookstep.server.plan.Look.Level.Percent;
import lookstep.server.plan.Look.Level.StopsFromKey;
import lookstep.server.plan.Look.Setting;
import lookstep.server.plan.Modifier;
import lookstep.server.plan.Person;
import lookstep.server.plan.Place;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plan.Surface;
import lookstep.simulator.model.scene.Arrangement;
import lookstep.simulator.model.scene.Arrangement.Kind;
import lookstep.simulator.model.space.Vec3;

/** Small plans, made by hand. */
public final class TestPlans {
    private static final Modifier BARE = new Modifier("bare", 0, 1, 0, false);
    private static final Place PLACE = new Place("the Brine Loft", 8, 9, 4, 2.5, 0.04, 0.1, 0.2);
    private static final Surface GREY = new Surface(0.18, 0.18, 0.18);
    private static final List<String> ALL = List.of("Ines", "Marlo", "Petra", "Quill", "Tovah");

    private TestPlans() {}

    /**
     * One light of one emitter (100 cd, 40 degrees, linear, 8 bit) at slot 1, two metres in front
     * of the faces.
     */
    public static ShootPlan oneDimmer() {
        Fixture fixture =
                new Fixture(
                        "one",
                        "one lamp",
                        List.of(new Emitter("white", 0.3805, 0.3767, 100)),
                        DimmingCurve.LINEAR,
                        40,
                        20,
                        List.of(new Mode("8-bit", List.of(new Mode.Channel.Emitter(0, 1)))));
        return plan(
                List.of(light("lamp", fixture, "8-bit", 1, -2, 1.5, BARE)),
                List.of(look("on", 4000, 0, Map.of("lamp", percent(100, 4000)))),
                List.of(shot("only", "on", List.of("Petra"), Kind.SOLO, false)));
    }

    /** Five people, four lights, three shots: the plan behind the pages' samples. */
    public static ShootPlan threeShots() {
        List<Light> rig =
                List.of(
                        new Light(
                                "key",
                                GenericFixtures.BI_COLOUR,
                                mode(GenericFixtures.BI_COLOUR, "16-bit"),
                                1,
                                1,
                                new Vec3(-2, -2.6, 2.3),
                                new Vec3(0, 0, 1.5),
                                new Modifier("softbox", 0.9, 0.6, 90, false)),
                        new Light(
                                "fill",
                                GenericFixtures.BI_COLOUR,
                                mode(GenericFixtures.BI_COLOUR, "8-bit"),
                                1,
                                11,
                                new Vec3(2.2, -3, 2),
                                new Vec3(0, 0, 1.5),
                                BARE),
                        new Light(
                                "rim left",
                                GenericFixtures.RGBW,
                                mode(GenericFixtures.RGBW, "8-bit"),
                                1,
                                21,
                                new Vec3(-2.2, 2, 2.6),
                                new Vec3(0, 0, 1.5),
                                BARE),
                        new Light(
                                "top",
                                GenericFixtures.RGBW,
                                mode(GenericFixtures.RGBW, "8-bit"),
                                1,
                                31,
                                new Vec3(0.3, 1.2, 3),
                                new Vec3(0, 0, 1.5),
                                BARE));
        Map<String, Setting> safe = new LinkedHashMap<>();
        safe.put("key", percent(100, 4300));
        safe.put("fill", stops(-1, 4300));
        safe.put("rim left", stops(1, 4300));
        Map<String, Setting> warm = new LinkedHashMap<>();
        warm.put("key", percent(100, 3000));
        warm.put("fill", stops(-2, 3000));
        warm.put("rim left", stops(1, 5600));
        return plan(
                rig,
                List.of(
                        look("safe", 4300, 0.7, safe),
                        look("warm front, cold back", 3000, 0.7, warm),
                        new Look(
                                "rim only",
                                new CameraSettings(5.6, 1 / 125.0, 3200, 4300),
                                0.7,
                                "rim left",
                                Map.of("rim left", percent(50, 5600)))),
                List.of(
                        new Shot(
                                "safe",
                                "All five, safe",
                                true,
                                "safe",
                                ALL,
                                new Arrangement(Kind.WEDGE, true, 0.55, 0, List.of()),
                                35,
                                4.2,
                                1.5,
                                "landscape 3:2",
                                List.of("Shoulders touching, chins down", "Eyes to the lens"),
                                10),
                        new Shot(
                                "warm-front",
                                "Warm front, cold back",
                                false,
                                "warm front, cold back",
                                ALL,
                                new Arrangement(Kind.ZIGZAG, false, 0.55, 0, List.of()),
                                35,
                                4.2,
                                1.5,
                                "landscape 3:2",
                                List.of("Half a step back, Ines", "Look past me, left"),
                                8),
                        new Shot(
                                "rim-only",
                                "Rim only",
                                false,
                                "rim only",
                                ALL,
                                new Arrangement(Kind.LINE, false, 0.55, 0, List.of()),
                                35,
                                4.2,
                                1.5,
                                "landscape 3:2",
                                List.of("Backs straight, nobody smiles"),
                                6)));
    }

    private static ShootPlan plan(List<Light> rig, List<Look> looks, List<Shot> shots) {
        return new ShootPlan(
                "The Tin Meridians at the Brine Loft",
                PLACE,
                new House(20, 3500),
                480,
                ALL.stream().map(n -> new Person(n, "plays", 1.7, GREY, GREY, GREY, GREY)).toList(),
                rig,
                looks,
                shots);
    }

    private static Mode mode(Fixture fixture, String id) {
        return fixture.modes().stream().filter(m -> m.id().equals(id)).findFirst().orElseThrow();
    }

    private static Light light(
            String name,
            Fixture fixture,
            String mode,
            int slot,
            double y,
            double z,
            Modifier modifier) {
        return new Light(
                name,
                fixture,
                mode(fixture, mode),
                1,
                slot,
                new Vec3(0, y, z),
                new Vec3(0, 0, z),
                modifier);
    }

    private static Look look(String name, double kelvin, double fade, Map<String, Setting> lights) {
        return new Look(
                name,
                new CameraSettings(8, 1 / 125.0, 3200, kelvin),
                fade,
                lights.keySet().iterator().next(),
                lights);
    }

    private static Shot shot(
            String id, String look, List<String> people, Kind kind, boolean apexNear) {
        return new Shot(
                id,
                id,
                true,
                look,
                people,
                new Arrangement(kind, apexNear, 0.55, 0, List.of()),
                50,
                3,
                1.5,
                "portrait 4:5",
                List.of("Stand still"),
                10);
    }

    public static Setting percent(double percent, double kelvin) {
        return new Setting(new Percent(percent), new Temperature(kelvin));
    }

    public static Setting stops(double stops, double kelvin) {
        return new Setting(new StopsFromKey(stops), new Temperature(kelvin));
    }
}
