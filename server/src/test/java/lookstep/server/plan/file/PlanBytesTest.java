package lookstep.server.plan.file;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeFalse;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Files that cannot even be looked into. */
class PlanBytesTest {
    @TempDir Path folder;

    @Test
    void aGoodFile() throws IOException {
        assertInstanceOf(PlanReading.Good.class, read(Kit.SMALL.getBytes(StandardCharsets.UTF_8)));
    }

    @Test
    void aByteOrderMarkAndWindowsLineEnds() throws IOException {
        String text = "\uFEFF" + Kit.SMALL.replace("\n", "\r\n").replace("width: 6", "width: 0");
        PlanReading reading = read(text.getBytes(StandardCharsets.UTF_8));
        assertEquals(
                List.of(
                        "f:4:10: place.width is 0 m; write metres between 1 and 100, for example"
                                + " 8"),
                texts(reading));
    }

    @Test
    void noSuchFile() {
        assertEquals(
                List.of("f: there is no such file; check the path and the spelling"),
                texts(new PlanReader(Kit.FIXTURES).read(folder.resolve("none.shoot.yaml"))));
    }

    @Test
    void aDirectory() {
        assertEquals(
                List.of("f: this is a directory; name the .shoot.yaml file in it"),
                texts(new PlanReader(Kit.FIXTURES).read(folder)));
    }

    @Test
    void aDevice() {
        assertEquals(
                List.of("f: this is not a plain file; name a .shoot.yaml file"),
                texts(new PlanReader(Kit.FIXTURES).read(Path.of("/dev/null"))));
    }

    @Test
    void notReadable() throws IOException {
        Path file = folder.resolve("secret.shoot.yaml");
        Files.writeString(file, Kit.SMALL);
        Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("---------"));
        assumeFalse(Files.isReadable(file), "root reads everything");
        assertEquals(
                List.of(
                        "f: the file cannot be read (AccessDeniedException); check who may read"
                                + " it, and that the disk is still there"),
                texts(new PlanReader(Kit.FIXTURES).read(file)));
    }

    @Test
    void largerThanAnyPlan() throws IOException {
        byte[] bytes = new byte[PlanBytes.MOST_BYTES + 1];
        Arrays.fill(bytes, (byte) '#');
        assertEquals(
                List.of(
                        "f: the file is larger than 1 MB, a plan has a few kB; check that this is"
                                + " the plan file"),
                texts(read(bytes)));
    }

    @Test
    void largestThatIsTaken() throws IOException {
        byte[] bytes =
                Arrays.copyOf(Kit.SMALL.getBytes(StandardCharsets.UTF_8), PlanBytes.MOST_BYTES);
        Arrays.fill(bytes, Kit.SMALL.length(), bytes.length, (byte) '#');
        bytes[Kit.SMALL.length()] = '\n';
        assertInstanceOf(PlanReading.Good.class, read(bytes));
    }

    @Test
    void notUtf8() throws IOException {
        String text = Kit.with(Kit.SMALL, "the shed", "the sh\u00E9d");
        assertEquals(
                List.of(
                        "f:3:15: the file is not UTF-8 text; save it as UTF-8; an editor calls"
                                + " that its encoding"),
                texts(read(text.getBytes(Charset.forName("windows-1252")))));
        assertEquals(1, texts(read(Kit.SMALL.getBytes(StandardCharsets.UTF_16))).size());
    }

    @Test
    void cutWithinALetter() throws IOException {
        byte[] bytes = "title: caf\u00E9".getBytes(StandardCharsets.UTF_8);
        List<String> texts = texts(read(Arrays.copyOf(bytes, bytes.length - 1)));
        assertTrue(texts.get(0).startsWith("f:1:11: the file is not UTF-8 text"), texts.toString());
    }

    @Test
    void controlCharacters() throws IOException {
        String text = Kit.with(Kit.SMALL, "the shed", "the\u0000shed");
        assertEquals(
                List.of(
                        "f:3:12: there is a control character (U+0000) in the file; delete it; if"
                                + " the file is full of them, it is no text file"),
                texts(read(text.getBytes(StandardCharsets.UTF_8))));
    }

    @Test
    void empty() throws IOException {
        for (String text : List.of("", "\n\n", "# only a remark\n")) {
            assertEquals(
                    List.of(
                            "f:1:1: the file is empty; begin with a line 'title: ' and the name of"
                                    + " the shoot"),
                    texts(read(text.getBytes(StandardCharsets.UTF_8))));
        }
    }

    @Test
    void noKeys() throws IOException {
        assertEquals(
                List.of(
                        "f:1:1: the file is a list of 2; begin with keys: title, place, people,"
                                + " rig, looks, shots"),
                texts(read("- a\n- b\n".getBytes(StandardCharsets.UTF_8))));
    }

    private PlanReading read(byte[] bytes) throws IOException {
        Path file = folder.resolve("it.shoot.yaml");
        Files.write(file, bytes);
        return new PlanReader(Kit.FIXTURES).read(file);
    }

    private static List<String> texts(PlanReading reading) {
        PlanReading.Bad bad = assertInstanceOf(PlanReading.Bad.class, reading);
        return bad.errors().stream().map(e -> e.text("f")).toList();
    }
}
