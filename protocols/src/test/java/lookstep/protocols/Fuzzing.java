package lookstep.protocols;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Searches for input that breaks a {@code @FuzzTest}, in a process of its own, guided by what the
 * code does with each input. From one seed, though the machine's speed decides how far it comes.
 */
public final class Fuzzing {
    private static final Pattern RUNS = Pattern.compile("Done (\\d+) runs in");

    private Fuzzing() {}

    /**
     * Fails with the fuzzer's words if it found something.
     *
     * @param targets a class with one {@code @FuzzTest}; its seeds are the files of the test
     *     resource folder {@code <class>Inputs/<method>} beside it
     * @param seconds how long, after a start of several seconds
     * @param folder for what it finds and keeps
     */
    public static void search(Class<?> targets, int seconds, Path folder)
            throws IOException, InterruptedException {
        Path log = folder.resolve("fuzzing.log");
        Process process =
                new ProcessBuilder(
                                List.of(
                                        Path.of(System.getProperty("java.home"), "bin", "java")
                                                .toString(),
                                        "-cp",
                                        System.getProperty("java.class.path"),
                                        "com.code_intelligence.jazzer.Jazzer",
                                        "--target_class=" + targets.getName(),
                                        "--instrumentation_includes=lookstep.protocols.**",
                                        "--reproducer_path=" + folder,
                                        "-seed=1",
                                        "-max_len=20000",
                                        "-max_total_time=" + seconds,
                                        "-artifact_prefix=" + folder + "/"))
                        .directory(folder.toFile())
                        .redirectErrorStream(true)
                        .redirectOutput(log.toFile())
                        .start();
        int exit = process.waitFor();
        String words = Files.readString(log, StandardCharsets.ISO_8859_1);
        assertEquals(0, exit, words);
        Matcher runs = RUNS.matcher(words);
        assertTrue(runs.find(), words);
        assertTrue(Long.parseLong(runs.group(1)) > 200, words);
    }
}
