package lookstep.server.plan.file;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import lookstep.protocols.fixture.Fixture;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.server.plan.Light;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Plans that list files with fixtures; the list is on line 14. */
class FixturesInPlansTest {
    @TempDir Path folder;

    @BeforeEach
    void write() throws IOException {
        Files.writeString(folder.resolve("panel.fixture.yaml"), FixtureKit.SMALL);
    }

    @Test
    void aLightMayBeOneOfThem() throws IOException {
        PlanReading.Good good =
                assertInstanceOf(PlanReading.Good.class, read("[panel.fixture.yaml]", "panel"));
        assertEquals(List.of(), good.warnings());
        Light rim = good.plan().light("rim left");
        assertEquals(FixtureKit.fixture(FixtureKit.SMALL), rim.fixture());
        assertEquals("each", rim.mode().id());
        assertEquals("bi-colour", good.plan().light("key").fixture().id());
    }

    @Test
    void pathsGoFromThePlan() throws IOException {
        Files.createDirectory(folder.resolve("lights"));
        Files.move(
                folder.resolve("panel.fixture.yaml"),
                folder.resolve("lights").resolve("Panel.Fixture.YAML"));
        assertInstanceOf(PlanReading.Good.class, read("[lights/Panel.Fixture.YAML]", "panel"));
        Path whole = folder.resolve("lights/Panel.Fixture.YAML").toAbsolutePath();
        assertInstanceOf(PlanReading.Good.class, read("[" + whole + "]", "panel"));
    }

    @Test
    void anEmptyListIsNone() throws IOException {
        assertInstanceOf(PlanReading.Good.class, read("[]", "rgbw"));
    }

    @Test
    void itsErrorsAreToldWithItsNameAndItsLinesInTheirOrder() throws IOException {
        Files.writeString(
                folder.resolve("panel.fixture.yaml"),
                FixtureKit.SMALL
                        .replace("beam: 95", "beam: 950")
                        .replace("duv: 0.001", "duv: 0.1"));
        assertEquals(
                List.of(
                        "14:12: fixtures[1]: panel.fixture.yaml:3:7: beam is 950 degrees; write"
                                + " degrees between 1 and 179, for example 60",
                        "14:12: fixtures[1]: panel.fixture.yaml:12:37: emitters[4].duv is 0.1;"
                                + " write Duv between -0.05 and 0.05, for example 0.002"),
                errors("[panel.fixture.yaml]", "panel"));
    }

    @Test
    void idsAreGivenOnce() throws IOException {
        assertEquals(
                List.of(
                        "14:32: fixtures[2]: there is a fixture 'panel' from line 14 already;"
                                + " delete one of the two lines, or write another id in that"
                                + " file"),
                errors("[panel.fixture.yaml, ./panel.fixture.yaml]", "panel"));
        Files.writeString(
                folder.resolve("panel.fixture.yaml"),
                FixtureKit.SMALL.replace("id: panel", "id: rgbw"));
        assertEquals(
                List.of(
                        "14:12: fixtures[1]: there is a fixture 'rgbw' built in already; write"
                                + " another id in that file"),
                errors("[panel.fixture.yaml]", "rgbw"));
    }

    @Test
    void anUnknownIdIsToldWithWhatThereIs() throws IOException {
        assertEquals(
                List.of("22:14: rig[2].fixture is 'panle'; write 'panel'"),
                errors("[panel.fixture.yaml]", "panle"));
    }

    @Test
    void whatIsNoFileThatCanBeRead() throws IOException {
        Files.createDirectory(folder.resolve("dir.fixture.yaml"));
        Files.write(folder.resolve("huge.fixture.yaml"), new byte[PlanBytes.MOST_BYTES + 1]);
        Files.write(folder.resolve("zip.fixture.yaml"), new byte[] {'P', 'K', 3, 4});
        assertEquals(
                List.of(
                        "14:12: fixtures[1]: none.fixture.yaml: there is no such file; check the"
                                + " path and the spelling"),
                errors("[none.fixture.yaml]", "panel"));
        assertEquals(
                List.of(
                        "14:12: fixtures[1]: dir.fixture.yaml: this is a directory; name the"
                                + " .fixture.yaml file in it"),
                errors("[dir.fixture.yaml]", "panel"));
        assertEquals(
                List.of(
                        "14:12: fixtures[1]: huge.fixture.yaml: the file is larger than 1 MB, a"
                                + " fixture has a few kB; check that this is the fixture file"),
                errors("[huge.fixture.yaml]", "panel"));
        assertEquals(
                List.of(
                        "14:12: fixtures[1]: zip.fixture.yaml:1:3: there is a control character"
                                + " (U+0003) in the file; delete it; if the file is full of them,"
                                + " it is no text file"),
                errors("[zip.fixture.yaml]", "panel"));
        assertEquals(
                List.of(
                        "14:12: fixtures[1]: panel.yaml: its name does not say that it describes a"
                                + " fixture; name a file that ends with .fixture.yaml or .gdtf"),
                errors("[panel.yaml]", "panel"));
        assertEquals(
                List.of("14:12: fixtures[1] is 3; to have it as a text write it in quotes: \"3\""),
                errors("[3]", "panel"));
        assertEquals(
                List.of(
                        "14:11: fixtures is 'panel.fixture.yaml'; write a list, for example"
                                + " [stage-panel.fixture.yaml]"),
                errors("panel.fixture.yaml", "panel"));
        assertEquals(
                List.of(
                        "14:1: fixtures has no value; write fixtures: [stage-panel.fixture.yaml],"
                                + " or delete the line",
                        "22:14: rig[2].fixture is 'panel'; write one of 'dimmer', 'bi-colour',"
                                + " 'rgb', 'rgbw', 'rgbww'"),
                errors("", "panel"));
    }

    @Test
    void withoutAReaderForGdtfItIsToldSo() throws IOException {
        assertEquals(
                List.of(
                        "14:12: fixtures[1]: lamp.gdtf: GDTF files are not read here; write the"
                                + " fixture as a .fixture.yaml file"),
                errors("[lamp.gdtf]", "panel"));
    }

    @Test
    void gdtfIsReadByWhoeverCan() throws IOException {
        Fixture lamp = FixtureKit.fixture(FixtureKit.SMALL);
        Path file = plan("[lamp.GDTF]", "panel");
        PlanReading reading =
                new PlanReader(
                                GenericFixtures.all(),
                                path -> {
                                    assertEquals(folder.resolve("lamp.GDTF"), path);
                                    return new FixtureReading.Good(
                                            List.of(lamp), List.of("its beam is\u001Ba guess"));
                                })
                        .read(file);
        PlanReading.Good good = assertInstanceOf(PlanReading.Good.class, reading);
        assertEquals(
                List.of(
                        "p:14:12: fixtures[1]: lamp.GDTF: its beam is?a guess; 'check lamp.GDTF'"
                                + " shows what was understood"),
                good.warnings().stream().map(w -> w.text("p")).toList());
        assertEquals(lamp, good.plan().light("rim left").fixture());
    }

    private List<String> errors(String list, String fixture) throws IOException {
        PlanReading.Bad bad = assertInstanceOf(PlanReading.Bad.class, read(list, fixture));
        return bad.errors().stream().map(e -> e.text("f").substring(2)).toList();
    }

    private PlanReading read(String list, String fixture) throws IOException {
        return new PlanReader(GenericFixtures.all()).read(plan(list, fixture));
    }

    private Path plan(String list, String fixture) throws IOException {
        String text =
                Kit.SMALL
                        .replace("rig:\n", "fixtures: " + list + "\nrig:\n")
                        .replace("fixture: rgbw", "fixture: " + fixture);
        return Files.writeString(folder.resolve("it.shoot.yaml"), text);
    }
}
