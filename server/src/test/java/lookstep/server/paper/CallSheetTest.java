package lookstep.server.paper;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import lookstep.protocols.dmx.DmxPacket;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.server.look.LookLevels;
import lookstep.server.look.RigPackets;
import lookstep.server.plan.BandNotes;
import lookstep.server.plan.Circuit;
import lookstep.server.plan.Circumstances;
import lookstep.server.plan.Job;
import lookstep.server.plan.Light;
import lookstep.server.plan.Location;
import lookstep.server.plan.Look;
import lookstep.server.plan.MoveTimes;
import lookstep.server.plan.Person;
import lookstep.server.plan.Sensor;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plan.file.DemoShoot;
import lookstep.server.plan.file.PlanReader;
import lookstep.server.plan.file.PlanReading;
import lookstep.simulator.model.scene.Arrangement;
import lookstep.simulator.model.space.Vec3;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** The sheet as other programs read it. */
@SuppressWarnings("StringConcatToTextBlock") // pieces of a file, with their indents
class CallSheetTest {
    private static final ShootPlan DEMO = DemoShoot.read(GenericFixtures.all());
    private static final LocalDateTime NOON = LocalDateTime.of(2031, 5, 4, 12, 30);

    /** Points: rounding of boxes by pdftotext. */
    private static final double HAIR = 0.3;

    @TempDir Path dir;

    private static Sheet sheet(ShootPlan plan, PaperSize size) {
        return new Sheet(
                plan,
                plan.shots().stream().map(Shot::id).toList(),
                Map.of(),
                List.of("the fill gives its most, half a stop less than asked"),
                size,
                "tour.shoot.yaml",
                "0123456789abcdef",
                NOON);
    }

    private Path write(Sheet sheet) throws IOException {
        Path pdf = dir.resolve("sheet.pdf");
        PdfFile.write(sheet, pdf);
        return pdf;
    }

    private static void holds(String text, String expected) {
        assertTrue(text.contains(expected), () -> "'" + expected + "' is not in: " + text);
    }

    @Test
    void whoWhereWhatAndWhichAddressCanBeReadByAnotherProgram() throws Exception {
        String text = Poppler.text(write(sheet(DEMO, PaperSize.A4)));
        holds(text, DEMO.title());
        holds(text, "Window 8 min, 13 shots, 5 people");
        holds(text, "the fill gives its most, half a stop less than asked");
        for (Person p : DEMO.people()) {
            holds(text, p.name() + " " + p.part());
        }
        int number = 1;
        for (Shot shot : DEMO.shots()) {
            holds(text, number++ + " ");
            holds(text, shot.name());
            holds(text, String.join(", ", shot.people().subList(0, 1)));
            for (String say : shot.say()) {
                holds(text, "“" + say + "”");
            }
        }
        holds(text, "SAFE SHOT");
        holds(text, "front row: Ines, Tovah row 2: Quill, Marlo, Petra");
        holds(text, "f/6.3, 1/100 s, ISO 6400, 3000 K");
        for (String row :
                List.of(
                        "1 key bi-colour, 16-bit 1, 1-4 1/1 -1.9, -1.7, 2.3 0.4, 0.2, 1.5",
                        "2 fill bi-colour, 8-bit 1, 11-12 1/11 2.1, -2.6, 2 0.2, 0.2, 1.5",
                        "3 rim rgbw, 8-bit 1, 21-24 1/21 -3.2, 1.6, 2.7 0, 0.2, 1.5 bare",
                        "4 top rgbw, 16-bit 1, 31-38 1/31 0.3, 0.8, 4.3 0, 0.2, 1.6 bare")) {
            holds(text, row);
        }
        for (String caution :
                List.of(
                        "DMX512 is not for hazards",
                        "Residual-current protection",
                        "second, independent steel",
                        "LED heads get hot",
                        "Nobody stares into a bare LED",
                        "Repeated flashes can set off seizures",
                        "Local codes and licensed practice come first")) {
            holds(text, caution);
        }
        assertFalse(text.contains("\uFFFD"));
    }

    @Test
    void eachSlotOfEachLookIsThereToBeSetByHand() throws Exception {
        eachSlotIsThere(DEMO, DEMO);
    }

    /** A nearer key gives more lux, so what is asked in stops from it wants other slots. */
    @Test
    void theLightsOfAPlaceThatIsAloneAreSetAsTheyStandThere() throws Exception {
        String own =
                "  walls: brick\n"
                        + "  lights: [{name: key, position: [-0.9, -0.8, 2]}, fill, rim, top]\n";
        PlanReading reading =
                new PlanReader(GenericFixtures.all())
                        .read(
                                DemoShoot.text()
                                        .replace("  walls: brick\n", own)
                                        .getBytes(StandardCharsets.UTF_8));
        ShootPlan plan = ((PlanReading.Good) reading).plan();
        eachSlotIsThere(plan, plan.at(""));
    }

    private void eachSlotIsThere(ShootPlan printed, ShootPlan there) throws Exception {
        String text = Poppler.text(write(sheet(printed, PaperSize.A4))).replace("2031, 12:30", "");
        String settings = text.substring(text.indexOf("Slots are written as"));
        for (int i = 0; i < DEMO.looks().size(); i++) {
            Look look = DEMO.looks().get(i);
            int from = settings.indexOf(" " + look.name() + ": f/");
            int to =
                    i + 1 < DEMO.looks().size()
                            ? settings.indexOf(" " + DEMO.looks().get(i + 1).name() + ": f/")
                            : settings.length();
            assertTrue(from > 0 && to > from, look.name());
            DmxPacket packet = RigPackets.packet(there, LookLevels.of(there, look).levels(), 1);
            int slots = 0;
            Matcher pair = Pattern.compile(" (\\d+):(\\d+)").matcher(settings.substring(from, to));
            while (pair.find()) {
                int slot = Integer.parseInt(pair.group(1));
                assertEquals(packet.slot(slot), Integer.parseInt(pair.group(2)), look.name());
                slots++;
            }
            assertEquals(4 + 2 + 4 + 8, slots, look.name());
        }
        // A bi-colour light of 8 bits that is off, whatever is worked out elsewhere.
        holds(settings, "fill off – – 1 11:0 12:0");
    }

    @ParameterizedTest
    @EnumSource(PaperSize.class)
    void pagesAreOfTheirSizeNumberedAndTellWhichPlanTheyAreOf(PaperSize size) throws Exception {
        Path pdf = write(sheet(DEMO, size));
        Poppler.isSound(pdf);
        List<Poppler.Page> pages = Poppler.pages(pdf);
        assertTrue(pages.size() >= 4 && pages.size() <= 7, "pages: " + pages.size());
        String text = Poppler.text(pdf);
        for (int i = 0; i < pages.size(); i++) {
            holds(text, (i + 1) + " of " + pages.size());
            assertEquals(size == PaperSize.A4 ? 595.276 : 612, pages.get(i).width(), 0.01);
            assertEquals(size == PaperSize.A4 ? 841.89 : 792, pages.get(i).height(), 0.01);
        }
        assertEquals(
                pages.size(),
                count(text, "tour.shoot.yaml, plan 0123456789, printed 4 May 2031, 12:30"));
        nothingIsCutOrOverlaps(pages);
        fontsAreInside(pdf);
    }

    private static int count(String text, String part) {
        return (text.length() - text.replace(part, "").length()) / part.length();
    }

    private static void fontsAreInside(Path pdf) throws Exception {
        List<String> fonts = Poppler.fonts(pdf);
        assertEquals(2, fonts.size());
        for (String font : fonts) {
            assertTrue(font.matches(".*DejaVuSansCondensed.* yes yes yes .*"), font);
        }
    }

    private static void nothingIsCutOrOverlaps(List<Poppler.Page> pages) {
        for (Poppler.Page page : pages) {
            List<Poppler.Word> words = page.words();
            assertFalse(words.isEmpty());
            for (int i = 0; i < words.size(); i++) {
                Poppler.Word a = words.get(i);
                boolean inside =
                        a.left() >= 20
                                && a.top() >= 20
                                && a.right() <= page.width() - 20
                                && a.bottom() <= page.height() - 20;
                assertTrue(inside, "at the edge: " + a);
                for (int j = 0; j < i; j++) {
                    Poppler.Word b = words.get(j);
                    double wide = Math.min(a.right(), b.right()) - Math.max(a.left(), b.left());
                    double high = Math.min(a.bottom(), b.bottom()) - Math.max(a.top(), b.top());
                    assertFalse(wide > HAIR && high > HAIR, () -> a + " lies on " + b);
                }
            }
        }
    }

    @Test
    void placesJobsMainsMovesTimesAndNotesAreOnIt() throws Exception {
        Light moved = DEMO.light("fill");
        Location loft =
                new Location(
                        DEMO.place(),
                        DEMO.house(),
                        Optional.of(LocalTime.of(18, 15)),
                        Optional.of(LocalTime.of(19, 0)),
                        DEMO.rig(),
                        List.of(
                                new Circuit("wall left", 2, 230, List.of("key", "rim", "top"), 60),
                                new Circuit("wall right", 16, 230, List.of(), 0)),
                        "by the yard, ring twice",
                        "Odile at the desk",
                        List.of("the lift is slow"));
        Look look = DEMO.looks().get(0);
        Look withMove =
                new Look(
                        look.name(),
                        look.camera(),
                        look.fadeSeconds(),
                        look.key(),
                        look.lights(),
                        Map.of(
                                "fill",
                                new lookstep.server.plan.Placing(
                                        new Vec3(1.25, -3, 2), moved.aim())));
        List<Look> looks = new ArrayList<>(DEMO.looks());
        looks.set(0, withMove);
        ShootPlan plan =
                new ShootPlan(
                        DEMO.title(),
                        DEMO.place(),
                        DEMO.house(),
                        DEMO.windowSeconds(),
                        DEMO.people(),
                        DEMO.rig(),
                        looks,
                        DEMO.workLight(),
                        true,
                        DEMO.shots(),
                        new Circumstances(
                                List.of(loft),
                                Sensor.FULL_FRAME,
                                MoveTimes.USUAL,
                                List.of(
                                        new Job(
                                                "Harbour Weekly",
                                                List.of("a cover", "two spreads"),
                                                "desk 4, before nine",
                                                "no smoke")),
                                new BandNotes(List.of("all in black"), List.of())));
        Sheet sheet =
                new Sheet(
                        plan,
                        List.of("rim-only", "safe"),
                        Map.of("rim-only", 0.0, "safe", 95.4),
                        List.of(),
                        PaperSize.A4,
                        "p",
                        "0",
                        NOON);
        String text = Poppler.text(write(sheet));
        for (String expected :
                List.of(
                        "from 18:15 until 19:00",
                        "by the yard, ring twice",
                        "Odile at the desk",
                        "the lift is slow",
                        "Harbour Weekly a cover; two spreads desk 4, before nine no smoke",
                        "all in black",
                        "at about 0:00: Rim only",
                        "at about 1:35: All five, safe",
                        // 80 % of 2 A at 230 V, by hand; 100 + 120 + 120 + 60 W
                        "wall left 2 A, 230 V 368 W key, rim, top, 60 W of others 400 W TOO MUCH",
                        "wall right 16 A, 230 V 2944 W 0 W good",
                        "common practice; local code prevails",
                        "On no circuit of the plan: fill",
                        "MOVED to (1.25, -3, 2)",
                        "THIS PLAN ALLOWS FLASHING")) {
            holds(text, expected);
        }
        assertTrue(text.indexOf("0:00: Rim only") < text.indexOf("1:35: All five"));
        assertFalse(text.contains("Two lights off “"), "a shot that is not in the order");
    }

    @Test
    void sixtyPeopleAHundredShotsAndFortyLightsArePagesWithoutAClash() throws Exception {
        ShootPlan plan = CrowdedPlan.of(60, 100, 40, "person %d of the long band");
        Path pdf = write(sheet(plan, PaperSize.A4));
        Poppler.isSound(pdf);
        List<Poppler.Page> pages = Poppler.pages(pdf);
        nothingIsCutOrOverlaps(pages);
        String text = Poppler.text(pdf);
        for (int i = 1; i <= 100; i++) {
            holds(text, "shot number " + i + " ");
        }
        for (int i = 1; i <= 40; i++) {
            Light light = plan.rig().get(i - 1);
            holds(text, light.name() + " ");
            holds(text, " " + light.universe() + "/" + light.startSlot() + " ");
        }
    }

    @Test
    void namesThatNoFontHoldsOrThatSteerOrThatNeverEndStillMakeASoundSheet() throws Exception {
        List<String> names =
                List.of(
                        "x".repeat(60),
                        "\u05D3\u05E0\u05D4 (\u05D1\u05E1)",
                        "\u0645\u0631\u064A\u0645",
                        "\u5C71\u7530\u592A\u90CE",
                        "\uD83E\uDD41\uD83D\uDC68\u200D\uD83C\uDFA4",
                        "a\u0007b\u001B[31mc\u0000",
                        "\u202Eevil\u202C",
                        "lone \uD800 half",
                        "e\u0301te\u0301",
                        "<b>&amp;\\(paren",
                        "\u200B");
        ShootPlan plan = CrowdedPlan.named(names);
        Path pdf = write(sheet(plan, PaperSize.LETTER));
        Poppler.isSound(pdf);
        nothingIsCutOrOverlaps(Poppler.pages(pdf));
        fontsAreInside(pdf);
        String text = Poppler.text(pdf);
        holds(text, "\uFFFD stands for letters that this sheet's font does not hold");
        holds(text, "\uFFFD\uFFFD\uFFFD\uFFFD");
        holds(text, "a\uFFFDb\uFFFD[31mc\uFFFD");
        holds(text, "lone \uFFFD half");
        holds(text, "\u00E9t\u00E9");
        holds(text, "evil");
        holds(text, "\u05D3\u05E0\u05D4");
    }

    @Test
    void theSameSheetIsTheSameBytesAndAnotherHourIsNot() throws IOException {
        byte[] one = bytes(sheet(DEMO, PaperSize.A4));
        assertArrayEquals(one, bytes(sheet(DEMO, PaperSize.A4)));
        Sheet later =
                new Sheet(
                        DEMO,
                        List.of("safe"),
                        Map.of(),
                        List.of(),
                        PaperSize.A4,
                        "p",
                        "0",
                        NOON.plusHours(1));
        assertFalse(java.util.Arrays.equals(one, bytes(later)));
    }

    private static byte[] bytes(Sheet sheet) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        CallSheet.write(sheet, out);
        return out.toByteArray();
    }

    @Test
    void aFormerSheetIsReplacedAndAnythingElseIsNot() throws Exception {
        Path pdf = write(sheet(DEMO, PaperSize.A4));
        long before = Files.size(pdf);
        PdfFile.write(
                new Sheet(DEMO, List.of("safe"), Map.of(), List.of(), PaperSize.A4, "p", "0", NOON),
                pdf);
        assertTrue(Files.size(pdf) < before);
        Path other = Files.writeString(dir.resolve("notes.txt"), "mine");
        IOException refused =
                assertThrows(
                        IOException.class, () -> PdfFile.write(sheet(DEMO, PaperSize.A4), other));
        holds(refused.getMessage(), "notes.txt: it is there already and is no PDF");
        assertEquals("mine", Files.readString(other));
        assertThrows(IOException.class, () -> PdfFile.write(sheet(DEMO, PaperSize.A4), dir));
        Path nowhere = dir.resolve("no");
        IOException missing =
                assertThrows(
                        IOException.class,
                        () ->
                                PdfFile.write(
                                        sheet(DEMO, PaperSize.A4), nowhere.resolve("where.pdf")));
        assertEquals(nowhere.toString(), missing.getMessage());
        try (var files = Files.list(dir)) {
            assertEquals(2, files.count(), "no part of a file is left");
        }
    }

    @Test
    void anOrderThatIsNotOfThePlanIsRefused() {
        for (List<String> order : List.of(List.of("nothing"), List.of("safe", "safe"))) {
            assertThrows(
                    IllegalArgumentException.class,
                    () ->
                            new Sheet(
                                    DEMO,
                                    order,
                                    Map.of(),
                                    List.of(),
                                    PaperSize.A4,
                                    "p",
                                    "0",
                                    NOON));
        }
    }

    @Test
    void eachArrangementHasItsDrawing() throws Exception {
        ShootPlan plan = CrowdedPlan.arrangements();
        assertTrue(
                plan.shots().stream()
                        .map(s -> s.arrangement().kind())
                        .toList()
                        .containsAll(List.of(Arrangement.Kind.values())));
        Path pdf = write(sheet(plan, PaperSize.A4));
        nothingIsCutOrOverlaps(Poppler.pages(pdf));
        String text = Poppler.text(pdf);
        // Each short name once in each drawing of all five, and in the solo's own.
        assertEquals(plan.shots().size(), count(text, " Zo "), text);
    }
}
