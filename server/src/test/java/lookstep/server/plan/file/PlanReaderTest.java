package lookstep.server.plan.file;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.stream.IntStream;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.House;
import lookstep.server.plan.Look;
import lookstep.server.plan.Look.Blend;
import lookstep.server.plan.Look.Colour;
import lookstep.server.plan.Look.Level;
import lookstep.server.plan.Look.Setting;
import lookstep.server.plan.Person;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plan.Surface;
import lookstep.simulator.model.scene.Arrangement;
import lookstep.simulator.model.scene.Arrangement.Kind;
import lookstep.simulator.model.space.Vec3;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class PlanReaderTest {
    @Test
    void readsWhatIsWrittenAndFillsInTheRest() {
        ShootPlan p = Kit.plan(Kit.SMALL);

        assertEquals("Two by the door", p.title());
        assertEquals(0.03, p.place().backgroundReflectance(), 1e-9);
        assertEquals(new House(0, 3000), p.house());
        assertEquals(300, p.windowSeconds());
        assertEquals(
                List.of(
                        new Person(
                                "Ana",
                                "",
                                1.7,
                                new Surface(0.36, 0.20, 0.14),
                                new Surface(0.06, 0.035, 0.02),
                                new Surface(0.18, 0.18, 0.18),
                                new Surface(0.05, 0.08, 0.14)),
                        new Person(
                                "Bo",
                                "",
                                1.8,
                                new Surface(0.10, 0.05, 0.033),
                                new Surface(0.06, 0.035, 0.02),
                                new Surface(0.3, 0.05, 0.07),
                                new Surface(0.05, 0.08, 0.14))),
                p.people());
        assertEquals("16-bit", p.light("key").mode().id());
        assertEquals("8-bit", p.light("rim left").mode().id());
        assertEquals(1, p.light("key").universe());
        assertEquals(11, p.light("rim left").startSlot());
        assertEquals(new Vec3(-2, 1, 2.5), p.light("rim left").position());
        assertEquals(new Vec3(0, 0, 1.6), p.light("rim left").aim());
        assertEquals(ModifierWords.BARE, p.light("key").modifier());

        Look safe = p.look("safe");
        assertEquals(new CameraSettings(8, 0.008, 3200, 4300), safe.camera());
        assertEquals(0.7, safe.fadeSeconds());
        assertEquals("key", safe.key());
        assertEquals(List.of("key", "rim left"), List.copyOf(safe.lights().keySet()));
        assertEquals(
                new Setting(new Level.StopsFromKey(1), new Colour.Temperature(4300)),
                safe.lights().get("rim left"));
        assertEquals(0, p.look("blue").fadeSeconds());
        assertEquals(
                new Setting(new Level.Percent(40), new Colour.Temperature(3000)),
                p.look("blue").lights().get("key"));
        assertEquals(
                new Setting(new Level.StopsFromKey(-0.5), new Colour.Xy(0.2, 0.15)),
                p.look("blue").lights().get("rim left"));

        assertEquals(
                new Shot(
                        "both",
                        "Both",
                        true,
                        "safe",
                        List.of("Ana", "Bo"),
                        new Arrangement(Kind.LINE, false, 0.55, 0.6, List.of()),
                        50,
                        3,
                        1.5,
                        "landscape 3:2",
                        List.of(),
                        10),
                p.shots().get(0));
        assertEquals(
                new Shot(
                        "solo-bo",
                        "Solo, Bo",
                        false,
                        "blue",
                        List.of("Bo"),
                        new Arrangement(Kind.SOLO, false, 0.55, 0.6, List.of()),
                        85,
                        2.5,
                        1.5,
                        "landscape 3:2",
                        List.of(),
                        5,
                        new Shot.Use("", "solos solo", true, 0, "")),
                p.shots().get(2));
        assertEquals(List.of(), Kit.warnings(Kit.SMALL));
    }

    @Test
    void aLookOnlySaysWhatDiffersFromTheCommonCamera() {
        String text = Kit.with(Kit.SMALL, "    fade: 0\n", "    camera: {f: 5.6, kelvin: 3000}\n");
        assertEquals(
                new CameraSettings(5.6, 0.008, 3200, 3000), Kit.plan(text).look("blue").camera());
    }

    @Test
    void aLightWithoutColourIsWhiteToTheCameraOfItsLook() {
        String text = Kit.with(Kit.SMALL, "    fade: 0\n", "    camera: {kelvin: 3000}\n");
        text = Kit.with(text, ", xy: [0.2, 0.15]", "");
        assertEquals(
                new Colour.Temperature(3000),
                Kit.plan(text).look("blue").lights().get("rim left").colour());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "kelvin: 3200, duv: 0.003 | 3200 | 0.003",
                "kelvin: 3200, duv: -0.03 | 3200 | -0.03",
                "duv: 0.003 | 4300 | 0.003",
                "blend: broad | 4300 | 0"
            })
    void whites(String written, double kelvin, double duv) {
        String text = Kit.with(Kit.SMALL, "xy: [0.2, 0.15]", written);
        assertEquals(
                new Setting(new Level.StopsFromKey(-0.5), new Colour.Temperature(kelvin, duv)),
                Kit.plan(text).look("blue").lights().get("rim left"));
    }

    @Test
    void hueSaturationAndBlend() {
        String text =
                Kit.with(Kit.SMALL, "xy: [0.2, 0.15]", "hue: 220, saturation: 80, blend: most");
        assertEquals(
                new Setting(
                        new Level.StopsFromKey(-0.5),
                        new Colour.HueSaturation(220, 0.8),
                        Blend.MOST),
                Kit.plan(text).look("blue").lights().get("rim left"));
    }

    @Test
    void aKeyInLuxIsWhatStopsAreMeasuredAgainst() {
        String text = Kit.with(Kit.SMALL, "      key: {percent: 100}", "      key: {lux: 400}");
        Look look = Kit.plan(text).look("safe");
        assertEquals("key", look.key());
        assertEquals(new Level.Lux(400), look.lights().get("key").level());
    }

    @Test
    void ofSeveralLightsInPercentOrLuxTheKeyIsToBeNamed() {
        String text =
                Kit.with(
                        Kit.SMALL,
                        "      rim left: {stops: +1}\n",
                        "      rim left: {lux: 200}\n      third: {stops: -1}\n");
        text =
                Kit.with(
                        text,
                        "looks:\n",
                        "  - {name: third, fixture: rgb, slot: 31, position: [2, 1, 2.5]}\nlooks:\n");
        assertEquals(
                List.of(
                        "28:5: looks[1] has stops and 2 lights in percent or lux; say which of them"
                                + " stops are measured against: key: key"),
                Kit.errors(text));
    }

    @ParameterizedTest
    @CsvSource({
        "8 min, 480",
        "8min, 480",
        "90 s, 90",
        "90 sec, 90",
        "12:30, 750",
        "8, 480",
        "0.5, 30",
        "1.5 h, 5400",
        "0:30, 30",
        "10 s, 10",
        "4 h, 14400"
    })
    void windows(String written, double seconds) {
        String text = Kit.with(Kit.SMALL, "window: 5 min", "window: " + written);
        assertEquals(seconds, Kit.plan(text).windowSeconds(), 1e-9);
    }

    @ParameterizedTest
    @ValueSource(strings = {"9 s", "4.1 h", "12:60", "1:00:00", "-5", "0", "8 minutes", "8 m"})
    void notWindows(String written) {
        String text = Kit.with(Kit.SMALL, "window: 5 min", "window: '" + written + "'");
        assertEquals(1, Kit.errors(text).size());
    }

    @ParameterizedTest
    @CsvSource({"1/125, 0.008", "1/8000, 0.000125", "0.5, 0.5", "2, 2", "30, 30", "1/1.6, 0.625"})
    void exposuresAreKeptAsWritten(String written, double seconds) {
        String text = Kit.with(Kit.SMALL, "time: 1/125", "time: " + written);
        assertEquals(seconds, Kit.plan(text).looks().get(0).camera().seconds(), 1e-12);
    }

    @ParameterizedTest
    @CsvSource({"+1, 1", "-0, 0", "1., 1", ".5, 0.5", "1e0, 1", "-2.5, -2.5", "01, 1"})
    void numbersAsYamlHasThem(String written, double stops) {
        String text = Kit.with(Kit.SMALL, "{stops: +1}", "{stops: " + written + "}");
        Level.StopsFromKey level =
                assertInstanceOf(
                        Level.StopsFromKey.class,
                        Kit.plan(text).look("safe").lights().get("rim left").level());
        assertEquals(stops, level.stops(), 0);
    }

    @ParameterizedTest
    @CsvSource({
        "v towards camera, WEDGE, true",
        "V towards camera, WEDGE, true",
        "v away, WEDGE, false",
        "V away, WEDGE, false",
        "w, ZIGZAG, false",
        "W, ZIGZAG, false",
        "line, LINE, false",
        "cluster, CLUSTER, false",
        "'{kind: v, apex: near}', WEDGE, true",
        "'{kind: v, apex: far}', WEDGE, false",
        "rows 1-2, ROWS, false",
        "rows 1-1-1, ROWS, false"
    })
    void arrangementsOfThree(String written, Kind kind, boolean apexNear) {
        String three = Kit.with(Kit.SMALL, "rig:\n", "  - {name: Cy, height: 1.6}\nrig:\n");
        String text =
                Kit.with(
                        three,
                        "    safe: true\n",
                        "    safe: true\n    arrangement: " + written + "\n");
        Arrangement a = Kit.plan(text).shots().get(0).arrangement();
        assertEquals(kind, a.kind());
        assertEquals(apexNear, a.apexNear());
        assertEquals(kind == Kind.ROWS ? 3 : 0, a.rows().stream().mapToInt(i -> i).sum());
    }

    @Test
    void peopleKeepTheOrderOfTheShot() {
        String text =
                Kit.with(Kit.SMALL, "    safe: true\n", "    safe: true\n    people: [Bo, Ana]\n");
        assertEquals(List.of("Bo", "Ana"), Kit.plan(text).shots().get(0).people());
    }

    @Test
    void onePersonAloneIsASolo() {
        String text = Kit.with(Kit.SMALL, "    safe: true\n", "    safe: true\n    people: [Bo]\n");
        assertEquals(Kind.SOLO, Kit.plan(text).shots().get(0).arrangement().kind());
    }

    @Test
    void aRoundOfSolosTakesItsIdFromItsOwn() {
        String text =
                Kit.with(
                        Kit.SMALL,
                        "  - name: Solo\n    solos: true\n",
                        "  - id: blue\n    solos: true\n    people: [Bo]\n");
        Shot solo = Kit.plan(text).shots().get(1);
        assertEquals("blue-bo", solo.id());
        assertEquals("Solo, Bo", solo.name());
        assertEquals(2, Kit.plan(text).shots().size());
    }

    @ParameterizedTest
    @CsvSource({
        "'Warm front, cold back', warm-front-cold-back",
        "Zoë & Åsa!, zoe-asa",
        "  3 up , 3-up",
        "日本, ''"
    })
    void idsFromNames(String name, String id) {
        assertEquals(id, ShotsReader.slug(name));
    }

    @Test
    void allErrorsAtOnceInTheOrderOfTheFile() {
        String text =
                Kit.SMALL
                        .replace("width: 6", "width: 0")
                        .replace("height: 1.7", "height: 19")
                        .replace("slot: 11", "slot: 2")
                        .replace("{percent: 100}", "{percnt: 100}")
                        .replace("look: blue", "look: bleu")
                        .replace("    lens: 85\n", "");
        List<String> errors = Kit.errors(text);
        assertEquals(
                List.of("4:10", "12:13", "22:11", "28:12", "28:13", "42:5", "44:11"),
                errors.stream().map(e -> e.substring(0, e.indexOf(": "))).toList());
    }

    @Test
    void textNamesTheFile() {
        PlanError error =
                new PlanError(
                        12,
                        5,
                        "people[2].height is 19 m",
                        "write metres between 1 and 2.3, for example 1.78");
        assertEquals(
                "path/demo.shoot.yaml:12:5: people[2].height is 19 m; write metres between 1 and"
                        + " 2.3, for example 1.78",
                error.text("path/demo.shoot.yaml"));
        assertEquals("f: gone; look", new PlanError(0, 0, "gone", "look").text("f"));
    }

    @Test
    void lightsInTwoUniversesMayHaveTheSameSlots() {
        String text = Kit.with(Kit.SMALL, "    slot: 11\n", "    slot: 1\n    universe: 2\n");
        assertEquals(2, Kit.plan(text).light("rim left").universe());
    }

    @Test
    void theLastSlotsCanBeUsed() {
        String text = Kit.with(Kit.SMALL, "    slot: 11\n", "    slot: 509\n");
        assertEquals(509, Kit.plan(text).light("rim left").startSlot());
    }

    @Test
    void theNextFreeSlotIsSoughtFromTheBeginningWhenTheEndIsFull() {
        // 'rim left' needs 4 and meets 'key' on 509 to 512; 1 to 4 are free
        String text =
                Kit.SMALL
                        .replace("    slot: 1\n", "    slot: 509\n")
                        .replace("slot: 11", "slot: 509");
        assertTrue(Kit.errors(text).get(0).contains("write slot: 1,"), Kit.errors(text).get(0));
    }

    @Test
    void aFullUniverseIsSaidToBeFull() {
        StringBuilder lights = new StringBuilder();
        for (int slot = 5; slot <= 505; slot += 4) {
            lights.append(
                    "  - {name: r"
                            + slot
                            + ", fixture: rgbw, slot: "
                            + slot
                            + ", position: [0, 1, 2]}\n");
        }
        lights.append("  - {name: last, fixture: rgbw, slot: 509, position: [0, 1, 2]}\n");
        String text = Kit.with(Kit.SMALL, "looks:\n", lights + "looks:\n");
        List<String> errors = Kit.errors(text.replace("    slot: 11\n", "    slot: 1\n"));
        assertEquals(1, errors.size());
        assertTrue(errors.get(0).contains("no 4 free slots in a row"), errors.get(0));
    }

    @Test
    void oddThingsAreWarnedOfByPlace() {
        String text =
                Kit.SMALL
                        .replace("[-2, -2, 2.2]", "[-4, -2, 2.2]")
                        .replace("look: blue", "look: safe")
                        .replace("    solos: true\n", "    people: [Ana]\n")
                        .replace("    safe: true\n", "    safe: true\n    people: [Ana]\n")
                        .replace("distance: 2.5", "distance: 5.5")
                        .replace(
                                "key: {percent: 40, kelvin: 3000}",
                                "key: {percent: 40, xy: [0.2, 0.2]}")
                        .replace(
                                "looks:\n",
                                """
                                  - {name: top, fixture: dimmer, slot: 99, position: [0, 0, 2.9]}
                                looks:
                                """);
        assertEquals(
                List.of(
                        "13:12: 'Bo' is in no shot; add them to a shot, or take them out",
                        "15:11: the light 'key' stands outside the room; x goes from -3 to 3, y"
                                + " from -5 to 2, z from 0 to 3",
                        "25:12: the light 'top' is on in no look; use it in a look, or leave it in"
                                + " the car",
                        "31:11: the look 'blue' is in no shot; use it in a shot, or take it out",
                        "31:11: in the look 'blue' 'key' is to give a colour, but it only has"
                                + " whites; write kelvin for it, or it gives the nearest white",
                        "44:5: in shot 'solo' the camera stands behind the wall; the room has 5 m in"
                                + " front of the people; come nearer with a shorter lens"),
                Kit.warnings(text));
    }

    @Test
    void aFileCutAnywhereIsReadOrHasItsErrors() {
        int good = 0;
        for (int end = 0; end < Kit.SMALL.length(); end++) {
            String cut = Kit.SMALL.substring(0, end);
            PlanReading reading = Kit.read(cut);
            if (reading instanceof PlanReading.Bad bad) {
                assertFalse(bad.errors().isEmpty());
                long lines = cut.lines().count() + 1;
                bad.errors()
                        .forEach(e -> assertTrue(e.line() >= 1 && e.line() <= lines, e.text(cut)));
            } else {
                good++;
            }
        }
        // four after the first shot (its line's end and two spaces), then 2, 2. and 2.5
        assertEquals(7, good);
    }

    @Test
    void aRemarkOrABlankLineMayBeMissingAndAnyOtherLineHarmsNothingButThePlan() {
        List<String> lines = DemoShoot.text().lines().toList();
        int bad = 0;
        for (int skip = 0; skip < lines.size(); skip++) {
            int without = skip;
            String text =
                    String.join(
                            "\n",
                            IntStream.range(0, lines.size())
                                    .filter(i -> i != without)
                                    .mapToObj(lines::get)
                                    .toList());
            List<String> errors = Kit.errors(text);
            String line = lines.get(skip).strip();
            if (line.isEmpty() || line.startsWith("#")) {
                assertEquals(List.of(), errors, line);
            }
            if (line.matches("(title|width|depth|height|fixture|slot|look|lens|distance):.*")) {
                assertFalse(errors.isEmpty(), line);
            }
            bad += errors.isEmpty() ? 0 : 1;
        }
        assertTrue(bad > 70, "bad: " + bad);
    }

    @ParameterizedTest
    @ValueSource(strings = {"[", "{a: ", "- ", "? ", "'", "\\", "&", "*", "#", "a: "})
    void thousandsOfTheSameSignAreAnError(String sign) {
        PlanReading.Bad bad =
                assertInstanceOf(
                        PlanReading.Bad.class, Kit.read("title: " + sign.repeat(5000) + "\n"));
        assertTrue(bad.errors().get(0).line() == 1 && bad.errors().size() < 20);
        PlanReading.Bad whole =
                assertInstanceOf(PlanReading.Bad.class, Kit.read(sign.repeat(5000)));
        assertTrue(whole.errors().get(0).line() == 1 && whole.errors().size() < 20);
    }

    @Test
    void aLookWithThousandsOfLightsIsNotGoneThrough() {
        StringBuilder many = new StringBuilder("      key: {percent: 100}\n");
        for (int i = 0; i < 2000; i++) {
            many.append("      l").append(i).append(": {percent: 1}\n");
        }
        List<String> errors =
                Kit.errors(Kit.with(Kit.SMALL, "      key: {percent: 100}\n", many.toString()));
        assertEquals(
                List.of("28:7: looks[1].lights is a group of keys; name 512 lights at most"),
                errors);
    }

    @Test
    void needsFixtures() {
        assertThrows(IllegalArgumentException.class, () -> new PlanReader(List.of()));
    }
}
