package lookstep.server.end;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static lookstep.server.end.Lookstep.until;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Playwright;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.stream.Stream;
import lookstep.server.plan.file.ExampleFixture;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The commands as they are typed. */
class CommandsIT {
    @TempDir Path dir;

    private static long pictures(Path folder) {
        if (!Files.isDirectory(folder)) {
            return 0;
        }
        try (Stream<Path> files = Files.list(folder)) {
            return files.filter(f -> f.toString().endsWith(".JPG")).count();
        } catch (IOException e) {
            return 0;
        }
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "--help | 0 | Exit codes",
                "rehearse --help | 0 | Examples",
                "shoot --help | 0 | --line=DEVICE",
                "check --help | 0 | --schema",
                "ports | 0 | erial adapter",
                "check --demo | 0 | The Tin Meridians",
                "check --schema | 0 | $schema",
                "check --help | 0 | --paper=FILE.pdf",
                "check --demo --paper a.pdf | 2 | --paper is for a plan",
                "check a.gdtf --paper a.pdf | 2 | --paper is for a plan",
                "check a.yaml --paper-size letter | 2 | add --paper FILE.pdf",
                "check /nowhere.shoot.yaml --paper a.pdf | 2 | /nowhere.shoot.yaml",
                "check --help | 0 | --suggest=N",
                "check --demo --suggest 4 | 2 | --suggest is for a plan",
                "check a.yaml --suggest 13 | 2 | ask for 1 to 12 looks",
                "check a.yaml --shot safe | 2 | add --suggest N",
                "nonsense | 2 | nonsense",
                "shoot | 2 | Missing required",
                "shoot a.yaml --frames . | 2 | Say where the light goes out",
                "shoot a.yaml --line b --to 10.0.0.1 --frames . | 2 | add --network INTERFACE",
                "shoot --help | 0 | --network=INTERFACE",
                "ports | 0 | behind --network",
                "rehearse --http nowhere | 2 | is no HOST:PORT",
                "check /nowhere.shoot.yaml | 2 | /nowhere.shoot.yaml",
                "check /nowhere.fixture.yaml | 2 | there is no such file"
            })
    void eachAnswersInWordsAndByItsExitCode(String words, int code, String says) throws Exception {
        try (Lookstep lookstep = Lookstep.start(dir, words.split(" "))) {
            assertEquals(code, lookstep.exitCode(), lookstep.printed());
            until("it says " + says, () -> lookstep.printed().contains(says), lookstep::printed);
        }
    }

    @Test
    void theDemoPrintedIsAPlanThatChecks() throws Exception {
        Path plan = dir.resolve("mine.shoot.yaml");
        try (Lookstep demo = Lookstep.start(dir, "check", "--demo")) {
            demo.exitCode();
            until("all is printed", () -> demo.printed().contains("solos: true"));
            Files.writeString(plan, demo.printed() + "\n");
        }
        try (Lookstep check = Lookstep.start(dir, "check", plan.toString())) {
            assertEquals(0, check.exitCode(), check.printed());
            assertTrue(check.printed().contains("universe 1, slots 1-4"), check.printed());
            assertTrue(check.printed().contains("exposed as metered"), check.printed());
        }
    }

    @Test
    void aGoodPlanIsWrittenAsACallSheetAndNothingElseIsWrittenOver() throws Exception {
        Path plan = dir.resolve("wall.shoot.yaml");
        try (var in = CommandsIT.class.getResourceAsStream("/lookstep/end/wall.shoot.yaml")) {
            Files.write(plan, in.readAllBytes());
        }
        Path pdf = dir.resolve("wall.pdf");
        String[] paper = {"check", plan.toString(), "--paper", pdf.toString()};
        try (Lookstep check = Lookstep.start(dir, paper)) {
            assertEquals(0, check.exitCode(), check.printed());
            until("it is told", () -> check.printed().contains("The call sheet is in " + pdf));
        }
        byte[] bytes = Files.readAllBytes(pdf);
        assertEquals("%PDF-", new String(bytes, 0, 5, java.nio.charset.StandardCharsets.US_ASCII));
        try (Lookstep check = Lookstep.start(dir, "check", plan.toString(), "--paper", "x/y.pdf")) {
            assertEquals(1, check.exitCode(), check.printed());
        }
        Files.writeString(pdf, "mine");
        try (Lookstep check = Lookstep.start(dir, paper)) {
            assertEquals(1, check.exitCode(), check.printed());
            until("it is told", () -> check.printed().contains("is no PDF, so it stays"));
        }
        assertEquals("mine", Files.readString(pdf));
    }

    @Test
    void looksAreSuggestedForAShotOfThePlanInTextAndForPrograms() throws Exception {
        Path plan = dir.resolve("wall.shoot.yaml");
        try (var in = CommandsIT.class.getResourceAsStream("/lookstep/end/wall.shoot.yaml")) {
            Files.write(plan, in.readAllBytes());
        }
        String[] words = {"check", plan.toString(), "--suggest", "2", "--shot", "warm"};
        try (Lookstep check = Lookstep.start(dir, words)) {
            assertEquals(0, check.exitCode(), check.printed());
            until(
                    "they are told",
                    () -> check.printed().contains("Looks for shot ‘warm’ that differ most"),
                    check::printed);
            assertTrue(check.printed().contains("‘only key"), check.printed());
        }
        try (Lookstep check =
                Lookstep.start(dir, "check", plan.toString(), "--suggest", "2", "--json")) {
            assertEquals(0, check.exitCode(), check.printed());
            until("all is printed", () -> check.printed().strip().endsWith("\n}"), check::printed);
            JsonNode suggestions = new ObjectMapper().readTree(check.printed()).path("suggestions");
            assertEquals(2, suggestions.path("inPlace").size(), check.printed());
            assertEquals("matched", suggestions.path("shot").asText());
        }
        try (Lookstep check =
                Lookstep.start(dir, "check", plan.toString(), "--suggest", "2", "--shot", "none")) {
            assertEquals(2, check.exitCode(), check.printed());
            until("the shots are told", () -> check.printed().contains("matched, warm, cold"));
        }
    }

    @Test
    void aFixtureOfOnesOwnIsToldSlotBySlotAndLightsAPlan() throws Exception {
        String fixture = ExampleFixture.text();
        Path own = Files.writeString(dir.resolve("mine.fixture.yaml"), fixture);
        try (Lookstep check = Lookstep.start(dir, "check", own.toString())) {
            assertEquals(0, check.exitCode(), check.printed());
            until(
                    "all is told",
                    () -> check.printed().contains("gives 2208 lx at 1 m as warm, 2400 lx as cool"),
                    check::printed);
            assertTrue(
                    check.printed().contains("8  must stay at 255: shutter open"), check.printed());
        }
        Path plan = dir.resolve("own.shoot.yaml");
        try (var in = CommandsIT.class.getResourceAsStream("/lookstep/end/wall.shoot.yaml")) {
            String text = new String(in.readAllBytes(), java.nio.charset.StandardCharsets.UTF_8);
            Files.writeString(
                    plan,
                    text.replace("rig:\n", "fixtures: [mine.fixture.yaml]\nrig:\n")
                            .replace("fixture: bi-colour", "fixture: example-panel")
                            .replace("mode: 16-bit", "mode: RGBWW 8-bit"));
        }
        try (Lookstep check = Lookstep.start(dir, "check", plan.toString())) {
            assertEquals(0, check.exitCode(), check.printed());
            until(
                    "the mode is told",
                    () -> check.printed().contains("example-panel, mode 'RGBWW 8-bit'"),
                    check::printed);
        }
        Files.writeString(own, fixture.replace("watts: 180", "watts: none"));
        try (Lookstep check = Lookstep.start(dir, "check", plan.toString())) {
            assertEquals(2, check.exitCode(), check.printed());
            until(
                    "its line is told",
                    () -> check.printed().contains("fixtures[1]: mine.fixture.yaml:12:8: watts"),
                    check::printed);
        }
    }

    @Test
    void aWrongPlanIsToldByLineAndColumnAllAtOnceAndNothingStarts() throws Exception {
        Path plan = dir.resolve("wrong.shoot.yaml");
        try (var in = CommandsIT.class.getResourceAsStream("/lookstep/end/wall.shoot.yaml")) {
            String good = new String(in.readAllBytes(), java.nio.charset.StandardCharsets.UTF_8);
            Files.writeString(
                    plan,
                    good.replace("height: 1.7}", "height: 17}")
                            .replace("fixture: bi-colour", "fixture: bi-color"));
        }
        for (String command : new String[] {"check", "rehearse"}) {
            try (Lookstep lookstep = Lookstep.start(dir, command, plan.toString())) {
                assertEquals(2, lookstep.exitCode(), lookstep.printed());
                until(
                        "both errors are told",
                        () -> lookstep.printed().contains("Nothing was started: 2 errors"),
                        lookstep::printed);
                assertTrue(
                        lookstep.printed()
                                .contains("wrong.shoot.yaml:14:40: people[1].height is 17 m"),
                        lookstep.printed());
                assertTrue(
                        lookstep.printed().contains("wrong.shoot.yaml:17:14: "),
                        lookstep.printed());
                assertTrue(lookstep.printed().contains("bi-colour"), lookstep.printed());
                assertFalse(lookstep.printed().contains("/open/"), lookstep.printed());
            }
        }
        assertFalse(Files.exists(dir.resolve("wrong.rehearsal")));
    }

    @Test
    void aSecondProgramForTheSameShootIsTurnedAway() throws Exception {
        try (Lookstep first = Lookstep.start(dir, "rehearse", "--http", "127.0.0.1:0")) {
            first.link(0);
            try (Lookstep second = Lookstep.start(dir, "rehearse", "--http", "127.0.0.1:0")) {
                assertEquals(1, second.exitCode(), second.printed());
                until(
                        "it says why",
                        () -> second.printed().contains("already being served"),
                        second::printed);
            }
            try (Lookstep fresh =
                    Lookstep.start(dir, "rehearse", "--fresh", "--http", "127.0.0.1:0")) {
                assertEquals(1, fresh.exitCode(), fresh.printed());
            }
            // The first one keeps its line, its folder and its pages.
            Path folder = dir.resolve("lookstep").resolve("demo.rehearsal");
            assertTrue(Files.exists(folder.resolve("near")), "the first one's line");
            assertTrue(Files.exists(folder.resolve("far")), "the first one's lights");
        }
    }

    /**
     * With socat on the PATH the line is a real device node, without it is in memory; the rest is
     * the same.
     */
    @ParameterizedTest
    @CsvSource({"/usr/bin:/bin, near", "/nowhere, simulated line"})
    void theDemoIsRehearsedWithOneKey(String searched, String lineName) throws Exception {
        try (Playwright playwright = Browser.playwright();
                com.microsoft.playwright.Browser chromium = Browser.chromium(playwright);
                Lookstep lookstep =
                        Lookstep.start(
                                dir,
                                Map.of("PATH", searched),
                                "rehearse",
                                "--http",
                                "127.0.0.1:0")) {
            Page next = chromium.newContext().newPage();
            next.navigate(lookstep.link(0));
            Page set = chromium.newContext().newPage();
            set.navigate(lookstep.link(1));
            Page band = chromium.newContext().newPage();
            band.navigate(lookstep.link(2));
            assertThat(next.locator("step-key .name")).hasText("Start with: All five, safe");
            next.keyboard().press("Space");
            band.locator("img[alt='Picture 1']").waitFor();
            assertThat(set.locator("link-states")).containsText(lineName);
            assertEquals(
                    1,
                    pictures(dir.resolve("lookstep").resolve("demo.rehearsal").resolve("frames")));
            set.locator("#shutter").click();
            band.locator("img[alt='Picture 2']").waitFor();
        }
    }

    @Test
    void shootRefusesTheSimulatedLineOfARehearsal() throws Exception {
        Path plan = dir.resolve("wall.shoot.yaml");
        try (var in = CommandsIT.class.getResourceAsStream("/lookstep/end/wall.shoot.yaml")) {
            Files.copy(in, plan);
        }
        String line = dir.resolve("lookstep").resolve("demo.rehearsal").resolve("near").toString();
        try (Lookstep shoot =
                Lookstep.start(
                        dir,
                        "shoot",
                        plan.toString(),
                        "--line",
                        line,
                        "--frames",
                        dir.toString())) {
            assertEquals(1, shoot.exitCode(), shoot.printed());
            until(
                    "it says why",
                    () -> shoot.printed().contains("simulated line of a rehearsal"),
                    shoot::printed);
        }
        assertFalse(Files.exists(dir.resolve("wall.shoot-journal")));
    }

    /** The nodes' names must not be left pointing at a terminal that somebody else opens next. */
    @Test
    void nodesWhoseMakerIsKilledArePutBackAndTheLineWithThem() throws Exception {
        try (Playwright playwright = Browser.playwright();
                com.microsoft.playwright.Browser chromium = Browser.chromium(playwright);
                Lookstep lookstep = Lookstep.start(dir, "rehearse", "--http", "127.0.0.1:0")) {
            Page set = chromium.newContext().newPage();
            set.navigate(lookstep.link(1));
            assertThat(set.locator("link-states")).containsText("a packet every 30 ms");
            Path near = dir.resolve("lookstep").resolve("demo.rehearsal").resolve("near");
            Object before =
                    Files.getLastModifiedTime(near, java.nio.file.LinkOption.NOFOLLOW_LINKS);
            assertEquals(1, lookstep.killChildren("socat"));
            until(
                    "the nodes are new",
                    () -> {
                        try {
                            return Files.exists(near)
                                    && !before.equals(
                                            Files.getLastModifiedTime(
                                                    near, java.nio.file.LinkOption.NOFOLLOW_LINKS));
                        } catch (IOException betweenTheTwo) {
                            return false;
                        }
                    });
            assertThat(set.locator("link-states")).containsText("a packet every 30 ms");
        }
    }
}
