package lookstep.simulator.gear;

import java.io.File;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;

/**
 * Two device nodes joined back to back, in place of a serial adapter and the cable behind it: what
 * is written to {@link #near} comes out of {@link #far}. Made by the free program socat; a
 * pseudo-terminal carries bytes but no break, and does not pace them.
 *
 * <p>The pair ends with this object, and with this process however that ends. Any thread.
 */
public final class SocatPair implements AutoCloseable {
    private static final long START_NANOS = TimeUnit.SECONDS.toNanos(10);
    private static final long END_SECONDS = 10;

    /**
     * Standard input is a pipe from this process: the pair ends when this process does, even if
     * killed, and the shell ends when the pair does.
     */
    private static final String UNTIL_INPUT_ENDS =
            "exec 3<&0; \"$@\" </dev/null 3<&- & pair=$!;"
                    + " (read -r never <&3; kill \"$pair\" 2>/dev/null) </dev/null & watch=$!;"
                    + " exec 3<&-; wait \"$pair\"; kill \"$watch\" 2>/dev/null";

    private final Path socat;
    private final Path near;
    private final Path far;
    private Process process;

    private SocatPair(Path socat, Path directory) {
        this.socat = socat;
        this.near = directory.resolve("near");
        this.far = directory.resolve("far");
    }

    /** Where socat is on the PATH; empty if it is not installed. */
    public static Optional<Path> installed() {
        return Arrays.stream(
                        Optional.ofNullable(System.getenv("PATH"))
                                .orElse("")
                                .split(File.pathSeparator, -1))
                .filter(part -> !part.isEmpty())
                .map(part -> Path.of(part, "socat"))
                .filter(Files::isExecutable)
                .findFirst();
    }

    /**
     * Makes a pair and waits until both nodes are there.
     *
     * @param directory an existing folder for the two links {@code near} and {@code far}
     * @throws IOException if socat is missing or does not start; the message says what to do
     */
    public static SocatPair start(Path directory) throws IOException {
        Path socat =
                installed()
                        .orElseThrow(
                                () ->
                                        new IOException(
                                                "socat is not installed: apt-get install socat"));
        SocatPair pair = new SocatPair(socat, directory.toAbsolutePath());
        pair.replug();
        return pair;
    }

    /** The end that takes the place of the adapter. */
    public Path near() {
        return near;
    }

    /** The end that the lights listen to. */
    public Path far() {
        return far;
    }

    /** Does what the fault says. Only {@link Fault.Unplugged} is in a pair's power. */
    public void misbehave(Fault.OfLine fault) {
        if (!(fault instanceof Fault.Unplugged)) {
            throw new IllegalArgumentException("a pair of nodes cannot do this: " + fault);
        }
        unplug();
    }

    /** Takes both nodes away, as when the adapter is pulled out. Twice is harmless. */
    public synchronized void unplug() {
        if (process == null) {
            return;
        }
        Process ending = process;
        process = null;
        try {
            ending.getOutputStream().close();
            if (!ending.waitFor(END_SECONDS, TimeUnit.SECONDS)) {
                ending.descendants().forEach(ProcessHandle::destroyForcibly);
                ending.destroyForcibly();
            }
        } catch (IOException alreadyGone) {
            ending.destroyForcibly();
        } catch (InterruptedException stopped) {
            Thread.currentThread().interrupt();
            ending.descendants().forEach(ProcessHandle::destroyForcibly);
            ending.destroyForcibly();
        }
        deleteLinks();
    }

    /**
     * Puts the nodes back under the same names. If they are there, nothing happens.
     *
     * @throws IOException if socat does not start
     */
    public synchronized void replug() throws IOException {
        if (process != null && process.isAlive()) {
            return;
        }
        deleteLinks();
        Process starting =
                new ProcessBuilder(
                                "sh",
                                "-c",
                                UNTIL_INPUT_ENDS,
                                "sh",
                                socat.toString(),
                                "pty,raw,echo=0,link=" + near,
                                "pty,raw,echo=0,link=" + far)
                        .redirectErrorStream(true)
                        .start();
        process = starting;
        long began = System.nanoTime();
        while (!(Files.exists(near) && Files.exists(far))) {
            boolean pairEnded = starting.descendants().findAny().isEmpty();
            if (System.nanoTime() - began > START_NANOS
                    || (pairEnded && System.nanoTime() - began > START_NANOS / 4)) {
                unplug();
                String said =
                        new String(
                                starting.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
                throw new IOException("socat made no pair of nodes in " + near + ": " + said);
            }
            LockSupport.parkNanos(TimeUnit.MILLISECONDS.toNanos(5));
        }
    }

    /** True while the nodes are there. */
    public synchronized boolean plugged() {
        return process != null && process.isAlive();
    }

    @Override
    public void close() {
        unplug();
    }

    private void deleteLinks() {
        for (Path link : new Path[] {near, far}) {
            try {
                if (Files.exists(link, LinkOption.NOFOLLOW_LINKS)) {
                    Files.delete(link);
                }
            } catch (IOException leftBehind) {
                // The next pair says so if it is in the way.
            }
        }
    }
}
