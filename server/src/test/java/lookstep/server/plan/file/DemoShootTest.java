package lookstep.server.plan.file;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import lookstep.protocols.fixture.Emitter;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.Look.Colour;
import lookstep.server.plan.Look.Level;
import lookstep.server.plan.Person;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.simulator.model.scene.Arrangement.Kind;
import lookstep.simulator.model.space.Vec3;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class DemoShootTest {
    private static final ShootPlan PLAN = DemoShoot.read(Kit.FIXTURES);

    @Test
    void isGoodWithoutAWarning() {
        assertEquals(List.of(), Kit.warnings(DemoShoot.text()));
    }

    @Test
    void hasABandARigAndLooks() {
        assertEquals(
                List.of("Ines", "Marlo", "Petra", "Quill", "Tovah"),
                PLAN.people().stream().map(Person::name).toList());
        assertEquals(
                List.of("bi-colour", "bi-colour", "rgbw", "rgbw"),
                PLAN.rig().stream().map(l -> l.fixture().id()).toList());
        Set<String> used = new LinkedHashSet<>(PLAN.shots().stream().map(Shot::look).toList());
        assertTrue(used.size() >= 6, used.toString());
    }

    @Test
    void hasASoloOfEverybodyAtTheEnd() {
        List<Shot> shots = PLAN.shots();
        assertEquals(
                List.of("solo-ines", "solo-marlo", "solo-petra", "solo-quill", "solo-tovah"),
                shots.subList(shots.size() - 5, shots.size()).stream().map(Shot::id).toList());
        assertEquals(8 + 5, shots.size());
        assertEquals("safe", shots.get(0).id());
    }

    @Test
    void warmFrontColdBack() {
        Look look = PLAN.look("warm front, cold back");
        assertEquals(3000, look.camera().kelvin());
        assertEquals(new Colour.Temperature(3000), look.lights().get("key").colour());
        assertEquals(new Colour.Temperature(3000), look.lights().get("fill").colour());
        assertEquals(new Colour.Temperature(5600), look.lights().get("rim").colour());
        assertEquals(new Colour.Temperature(5600), look.lights().get("top").colour());
        assertEquals(Set.of("key", "rim"), PLAN.look("two lights off").lights().keySet());
    }

    @Test
    void nobodyStandsInTheFoldOfTheSpread() {
        Shot spread =
                PLAN.shots().stream()
                        .filter(s -> s.framing().equals("spread"))
                        .findFirst()
                        .orElseThrow();
        assertEquals(Kind.LINE, spread.arrangement().kind());
        assertEquals(0, spread.people().size() % 2);
    }

    /** Shoulders 0.55 m apart, half a body is 0.25 m; a frame is 36 mm wide (common practice). */
    @Test
    void everybodyFitsIntoTheFrame() {
        for (Shot s : PLAN.shots()) {
            int across =
                    s.arrangement().kind() == Kind.ROWS
                            ? s.arrangement().rows().stream().mapToInt(i -> i).max().orElseThrow()
                            : s.people().size();
            double group = (across - 1) * s.arrangement().spacingMetres() + 0.5;
            double frame = 0.036 * s.distanceMetres() * 1000 / s.lensMillimetres();
            assertTrue(group < frame, s.id() + ": " + group + " in " + frame);
        }
    }

    /** A light in the picture would be seen; the camera is level, its frame 36 mm by 24 mm. */
    @Test
    void noLightIsInTheWidePicture() {
        for (Light l : PLAN.rig()) {
            double depth = l.position().y() + 4.2;
            double half = l.modifier().sizeMetres() / 2;
            boolean beside = Math.abs(l.position().x()) - half > depth * 18 / 35;
            boolean above = l.position().z() - half - 1.5 > depth * 12 / 35;
            assertTrue(beside || above, l.name());
        }
    }

    /**
     * ISO 2720: N^2 / t = E S / C with C = 250 for lux on a flat receptor. The front lights on a
     * card at the nearest face that looks at the camera, by inverse square and cosine, give the
     * exposure that the camera is set to, within a third of a stop.
     */
    @ParameterizedTest
    @CsvSource({"safe, 0.33", "two lights off, 0.33", "'warm front, cold back', 0.33"})
    void facesAreExposedRight(String name, double stops) {
        Look look = PLAN.look(name);
        double needed =
                250
                        * look.camera().fNumber()
                        * look.camera().fNumber()
                        / look.camera().seconds()
                        / look.camera().iso();
        double error = Math.log(frontLux(look) / needed) / Math.log(2);
        assertEquals(0, error, stops);
    }

    private static double frontLux(Look look) {
        Vec3 face = new Vec3(0, 0, 1.6);
        double key = 0;
        double sum = 0;
        for (String name : List.of("key", "fill")) {
            Look.Setting setting = look.lights().get(name);
            if (setting == null) {
                continue;
            }
            Light light = PLAN.light(name);
            Vec3 way = light.position().minus(face);
            double kelvin = ((Colour.Temperature) setting.colour()).kelvin();
            double full =
                    mixCandela(light.fixture().emitters(), kelvin)
                            * light.modifier().transmission()
                            / way.dot(way);
            double lux =
                    setting.level() instanceof Level.Percent p
                            ? full * p.percent() / 100
                            : key * Math.pow(2, ((Level.StopsFromKey) setting.level()).stops());
            assertTrue(lux <= full * 1.001, name + " cannot give that much");
            key = name.equals("key") ? lux : key;
            sum += lux * -way.y() / way.length();
        }
        return sum;
    }

    /**
     * Most that two whites give together at a colour temperature. On the line between them the
     * luminance weights are those of the chromaticities over y (additive mixture, CIE 15); the
     * target is the x of the Planckian locus (CIE 1931, c2 = 1.4388e-2 m K).
     */
    private static double mixCandela(List<Emitter> whites, double kelvin) {
        double x = kelvin == 3000 ? 0.436931 : 0.368110;
        assertTrue(kelvin == 3000 || kelvin == 4300);
        Emitter warm = whites.get(0);
        Emitter cool = whites.get(1);
        double warmShare = (x - cool.x()) / cool.y();
        double coolShare = (warm.x() - x) / warm.y();
        double most = Math.max(warmShare, coolShare);
        return (warmShare / most) * warm.candela() + (coolShare / most) * cool.candela();
    }
}
