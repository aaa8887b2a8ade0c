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
        List<String> command = new ArrayList<>(List.of("exiftool", "-n", "-s", "-a"));
        command.addAll(List.of(options));
        command.add(file.toString());
        Process process;
        try {
            process = new ProcessBuilder(command).redirectErrorStream(true).start();
        } catch (IOException e) {
            return fail("exiftool is missing: apt-get install libimage-exiftool-perl", e);
        }
        String all = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        if (process.waitFor() != 0) {
            fail("exiftool: " + all);
        }
        Map<String, String> words = new LinkedHashMap<>();
        all.lines()
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
}
