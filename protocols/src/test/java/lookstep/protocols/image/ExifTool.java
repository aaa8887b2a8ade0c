package lookstep.protocols.image;

import static org.junit.jupiter.api.Assertions.fail;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** The independent program that reads what we wrote. */
final class ExifTool {
    private ExifTool() {}

    /** Its words by tag name, unconverted; options come before the file. */
    static Map<String, String> read(Path file, String... options)
            throws IOException, InterruptedException {
        List<String> all = new ArrayList<>(List.of("-n", "-s", "-a"));
        all.addAll(List.of(options));
        Map<String, String> words = new LinkedHashMap<>();
        new String(run(file, all.toArray(String[]::new)), StandardCharsets.UTF_8)
                .lines()
                .forEach(
                        line -> {
                            int colon = line.indexOf(':');
                            String name = line.substring(0, colon).strip();
                            words.merge(
                                    name,
                                    line.substring(colon + 1).strip(),
                                    (one, other) -> one + " | " + other);
                        });
        return words;
    }

    /** What it puts out; options come before the file. */
    static byte[] run(Path file, String... options) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>(List.of("exiftool"));
        command.addAll(List.of(options));
        command.add(file.toString());
        Process process;
        try {
            process = new ProcessBuilder(command).redirectErrorStream(true).start();
        } catch (IOException e) {
            return fail("exiftool is missing: apt-get install libimage-exiftool-perl", e);
        }
        byte[] all = process.getInputStream().readAllBytes();
        if (process.waitFor() != 0) {
            fail("exiftool: " + new String(all, StandardCharsets.UTF_8));
        }
        return all;
    }
}
