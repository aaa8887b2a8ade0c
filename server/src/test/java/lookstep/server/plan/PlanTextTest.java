package lookstep.server.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import lookstep.server.plan.Look.Colour;
import lookstep.server.plan.Look.Level;
import lookstep.server.plan.Look.Setting;
import lookstep.server.plan.file.DemoShoot;
import lookstep.server.plan.file.Kit;
import lookstep.simulator.model.scene.Arrangement;
import lookstep.simulator.model.scene.Arrangement.Kind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PlanTextTest {
    private static final ShootPlan DEMO = DemoShoot.read(Kit.FIXTURES);

    @Test
    void saysThePlan() {
        String text = PlanText.of(DEMO);
        String begin =
                """
                The Tin Meridians at the Brine Loft
                  place   the Brine Loft: 8 m wide, 9 m deep, 4.8 m high; background 2.5 m behind, reflects 3 %
                  house   2 lx at 2700 K
                          through the yard, the goods lift to the left; ask the house technician
                  job     the band: a cover, one solo each
                  window  8 min for 13 shots

                People
                  Ines   1.63 m  drums
                  Marlo  1.91 m  bass
                  Petra  1.7  m  voice
                  Quill  1.78 m  guitar
                  Tovah  1.56 m  keys

                Rig (x right as the camera sees it, y away from the camera, z up; metres)
                  key   universe 1, slots 1-4    bi-colour, mode '16-bit', softbox 90
                        at (-1.9, -1.7, 2.3), looks at (0.4, 0.2, 1.5)
                """;
        assertEquals(begin, text.substring(0, begin.length()));
        assertTrue(
                text.contains(
                        """
                          warm front, cold back: f/6.3, 1/100 s, ISO 6400, 3000 K, fade 1.5 s
                            key (key): full, 3000 K
                            fill: 0.7 stops under, 3000 K
                            rim: a stop over, 5600 K
                            top: as much as the key, 5600 K
                        """),
                text);
        assertTrue(
                text.contains(
                        """
                        Shots, in order
                           1  All five, safe  (safe shot)
                              look 'safe'; V, middle nearest: Ines, Marlo, Petra, Quill, Tovah
                              35 mm at 4.2 m, lens 1.5 m high; landscape 3:2; importance 10
                              “Come in until your shoulders touch” “Weight on the back foot, eyes on me”
                        """),
                text);
        assertTrue(text.lines().allMatch(l -> l.equals(l.stripTrailing())));
    }

    @Test
    void addresses() {
        assertEquals("universe 1, slots 31-38", PlanWords.address(DEMO.light("top")));
        Light key = DEMO.light("key");
        Light lamp =
                new Light(
                        "lamp",
                        Kit.FIXTURES.get(0),
                        Kit.FIXTURES.get(0).modes().get(0),
                        2,
                        512,
                        key.position(),
                        key.aim(),
                        key.modifier());
        assertEquals("universe 2, slot 512", PlanWords.address(lamp));
    }

    @ParameterizedTest
    @CsvSource({"0.008, 1/125", "0.5, 1/2", "0.3, 0.3", "1, 1", "2.5, 2.5", "0.000125, 1/8000"})
    void times(double seconds, String text) {
        assertEquals(text, PlanWords.time(seconds));
    }

    @ParameterizedTest
    @CsvSource({"480, 8 min", "90, 1 min 30 s", "45, 45 s", "59.7, 1 min", "3600, 60 min"})
    void lengths(double seconds, String text) {
        assertEquals(text, PlanWords.length(seconds));
    }

    @ParameterizedTest
    @CsvSource({
        "-2, '2 stops under, 3000 K'",
        "1, 'a stop over, 3000 K'",
        "-0.5, 'half a stop under, 3000 K'",
        "0, 'as much as the key, 3000 K'",
        "1.5, '1.5 stops over, 3000 K'"
    })
    void stops(double stops, String text) {
        assertEquals(
                text,
                PlanWords.setting(
                        new Setting(new Level.StopsFromKey(stops), new Colour.Temperature(3000))));
    }

    @ParameterizedTest
    @CsvSource({"100, 'full, colour x 0.2 y 0.15'", "70, '70 %, colour x 0.2 y 0.15'", "0, off"})
    void percent(double percent, String text) {
        assertEquals(
                text,
                PlanWords.setting(
                        new Setting(new Level.Percent(percent), new Colour.Xy(0.2, 0.15))));
    }

    @Test
    void luxTintHueAndBlend() {
        Level lux = new Level.Lux(400);
        assertEquals(
                "400 lx, 3200 K, Duv 0.003 greener",
                PlanWords.setting(new Setting(lux, new Colour.Temperature(3200, 0.003))));
        assertEquals(
                "400 lx, 3200 K, Duv 0.0125 pinker",
                PlanWords.setting(new Setting(lux, new Colour.Temperature(3200, -0.0125))));
        assertEquals(
                "400 lx, hue 220, saturation 80 %, blended for most light",
                PlanWords.setting(
                        new Setting(lux, new Colour.HueSaturation(220, 0.8), Look.Blend.MOST)));
    }

    @ParameterizedTest
    @CsvSource({
        "LINE, false, line", "WEDGE, true, 'V, middle nearest'",
                "WEDGE, false, 'V, middle farthest'",
        "ZIGZAG, false, W", "CLUSTER, false, cluster", "SOLO, false, solo",
        "ROWS, false, 'rows of 2 and 3, front first'"
    })
    void arrangements(Kind kind, boolean apexNear, String text) {
        assertEquals(
                text,
                PlanWords.arrangement(new Arrangement(kind, apexNear, 0.55, 0.6, List.of(2, 3))));
    }
}
