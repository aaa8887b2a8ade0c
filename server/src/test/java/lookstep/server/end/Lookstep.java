package lookstep.server.end;

import static org.junit.jupiter.api.Assertions.fail;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import java.util.function.Supplier;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A running {@code java -jar lookstep.jar}, and what it printed. */
final class Lookstep implements AutoCloseable {
    private static final long DEADLINE_NANOS = TimeUnit.SECONDS.toNanos(60);
    private static final Pattern LINK = Pattern.compile("(http://\\S+/open/\\S+)");

    private final Process process;
    private final List<String> printed = new ArrayList<>();

    private Lookstep(Process process) {
        this.process = process;
        Thread reader = new Thread(this::read, "what lookstep prints");
        reader.setDaemon(true);
        reader.start();
    }

    /** Starts the packaged jar with these words, its state in {@code home}. */
    static Lookstep start(Path home, String... words) throws IOException {
        return start(home, Map.of(), words);
    }

    /** The same with other words in its environment. */
    static Lookstep start(Path home, Map<String, String> environment, String... words)
            throws IOException {
        String jar = System.getProperty("lookstep.jar");
        if (jar == null) {
            fail("-Dlookstep.jar=... is not set: run this test by 'mvn verify'");
        }
        List<String> command =
                new ArrayList<>(
                        List.of(
                                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                                "-jar",
                                jar));
        command.addAll(Arrays.asList(words));
        ProcessBuilder builder = new ProcessBuilder(command).redirectErrorStream(true);
        builder.environment().put("XDG_STATE_HOME", home.toString());
        builder.environment().putAll(environment);
        return new Lookstep(builder.start());
    }

    private void read() {
        try (BufferedReader out =
                new BufferedReader(
                        new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))) {
            for (String line = out.readLine(); line != null; line = out.readLine()) {
                synchronized (printed) {
                    printed.add(line);
                }
            }
        } catch (IOException ended) {
            // the process is gone
        }
    }

    String printed() {
        synchronized (printed) {
            return String.join("\n", printed);
        }
    }

    /** The link for the photographer; the assistant's is the first, the band's the third. */
    String link(int which) {
        until("the links are printed", () -> links().size() >= 3);
        return links().get(which);
    }

    private List<String> links() {
        List<String> links = new ArrayList<>();
        Matcher m = LINK.matcher(printed());
        while (m.find()) {
            links.add(m.group(1));
        }
        return links;
    }

    /** As a power cut does it: no warning, no tidying. */
    void kill() {
        process.destroyForcibly();
        until("the process is gone", () -> !process.isAlive());
    }

    /** As Ctrl-C does it; returns the exit code. */
    int stop() throws InterruptedException {
        process.destroy();
        if (!process.waitFor(30, TimeUnit.SECONDS)) {
            fail("lookstep did not stop:\n" + printed());
        }
        return process.exitValue();
    }

    /** Kills what it started under this name; returns how many there were. */
    long killChildren(String name) {
        return process.descendants()
                .filter(p -> p.info().command().orElse("").endsWith("/" + name))
                .filter(ProcessHandle::destroyForcibly)
                .count();
    }

    int exitCode() throws InterruptedException {
        if (!process.waitFor(60, TimeUnit.SECONDS)) {
            fail("lookstep did not end:\n" + printed());
        }
        return process.exitValue();
    }

    /** Waits for a condition that must come true. */
    static void until(String what, BooleanSupplier condition) {
        until(what, condition, () -> "");
    }

    /** Waits for a condition that must come true; {@code seen} tells what there was instead. */
    static void until(String what, BooleanSupplier condition, Supplier<String> seen) {
        long began = System.nanoTime();
        while (!condition.getAsBoolean()) {
            if (System.nanoTime() - began > DEADLINE_NANOS) {
                fail("after a minute it is still not so that " + what + ". " + seen.get());
            }
            try {
                TimeUnit.MILLISECONDS.sleep(10);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                fail("interrupted");
            }
        }
    }

    @Override
    public void close() {
        kill();
    }
}
