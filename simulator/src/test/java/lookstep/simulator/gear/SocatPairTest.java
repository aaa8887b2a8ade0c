package lookstep.simulator.gear;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.FileOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.locks.LockSupport;
import java.util.function.BooleanSupplier;
import lookstep.protocols.fixture.GenericFixtures;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Real pseudo-terminals: fails if socat is missing. Waits on conditions; how long is no matter of
 * the test.
 */
class SocatPairTest {
    @TempDir Path folder;
    private final LightListener lights =
            LightListener.byLength(
                    List.of(
                            new PatchedLight(
                                    "one",
                                    GenericFixtures.DIMMER,
                                    GenericFixtures.DIMMER.modes().get(0),
                                    1)));

    private static byte[] packet(int level) {
        byte[] octets = new byte[513];
        octets[1] = (byte) level;
        octets[512] = (byte) level;
        return octets;
    }

    private static void await(String what, BooleanSupplier step) {
        long began = System.nanoTime();
        while (!step.getAsBoolean()) {
            assertTrue(System.nanoTime() - began < TimeUnit.MINUTES.toNanos(1), what);
            LockSupport.parkNanos(500_000);
        }
    }

    /** Sends a packet each 25 ms until the far end shows it. */
    private void drive(PtyFarEnd end, FileOutputStream near, int level) {
        long[] nextNanos = {System.nanoTime()};
        await(
                "level " + level + " at the far end",
                () -> {
                    long now = System.nanoTime();
                    if (now - nextNanos[0] >= 0) {
                        nextNanos[0] = now + 25_000_000;
                        try {
                            near.write(packet(level));
                        } catch (IOException e) {
                            throw new AssertionError(e);
                        }
                    }
                    end.doWork(now);
                    byte[] slots = lights.lastSlots();
                    return (slots[0] & 0xFF) == level && (slots[511] & 0xFF) == level;
                });
    }

    @Test
    void bytesComeThroughAndAnUnplugIsSurvived() throws IOException {
        try (SocatPair pair = SocatPair.start(folder);
                PtyFarEnd end = new PtyFarEnd(pair.far(), lights)) {
            end.doWork(System.nanoTime());
            assertTrue(end.connected());
            try (FileOutputStream near = new FileOutputStream(pair.near().toFile())) {
                drive(end, near, 200);
            }
            pair.misbehave(new Fault.Unplugged());
            assertFalse(pair.plugged());
            assertFalse(Files.exists(pair.near(), LinkOption.NOFOLLOW_LINKS));
            assertFalse(Files.exists(pair.far(), LinkOption.NOFOLLOW_LINKS));
            await(
                    "the far end sees that the node is gone",
                    () -> {
                        end.doWork(System.nanoTime());
                        return !end.connected();
                    });
            assertEquals(200, lights.lastSlots()[0] & 0xFF, "the last look is held");
            pair.replug();
            await(
                    "the far end finds the node again",
                    () -> {
                        end.doWork(System.nanoTime());
                        return end.connected();
                    });
            try (FileOutputStream near = new FileOutputStream(pair.near().toFile())) {
                drive(end, near, 100);
            }
        }
        assertFalse(Files.exists(folder.resolve("near"), LinkOption.NOFOLLOW_LINKS));
    }

    @Test
    void aFarEndThatIsStuckHoldsUpTheWriter() throws IOException, InterruptedException {
        int packets = 100; // more than two terminals and socat hold between them
        try (SocatPair pair = SocatPair.start(folder);
                PtyFarEnd end = new PtyFarEnd(pair.far(), lights);
                FileOutputStream near = new FileOutputStream(pair.near().toFile())) {
            for (int i = 0; i < 10; i++) {
                end.doWork(i * 1_000_000L);
            }
            end.misbehave(new Fault.Stuck());
            AtomicInteger written = new AtomicInteger();
            Thread writer =
                    new Thread(
                            () -> {
                                try {
                                    for (int i = 0; i < packets; i++) {
                                        near.write(packet(77));
                                        written.incrementAndGet();
                                    }
                                } catch (IOException e) {
                                    written.set(-1);
                                }
                            });
            writer.start();
            int[] last = {-1, 0};
            await(
                    "the writer comes to a stop",
                    () -> {
                        assertEquals(0, end.doWork(System.nanoTime()));
                        last[1] = written.get() == last[0] ? last[1] + 1 : 0;
                        last[0] = written.get();
                        return last[0] > 0 && last[1] == 1000;
                    });
            assertTrue(last[0] < packets, last[0] + " packets went into a stuck line");
            assertTrue(writer.isAlive());
            end.mend();
            await(
                    "the writer goes on",
                    () -> {
                        end.doWork(System.nanoTime());
                        return written.get() == packets;
                    });
            writer.join();
        }
    }

    @Test
    void unpluggingAndReplacingTwiceAreHarmless() throws IOException {
        SocatPair pair = SocatPair.start(folder);
        pair.replug();
        pair.unplug();
        pair.unplug();
        pair.replug();
        assertTrue(pair.plugged());
        pair.close();
        pair.close();
        assertFalse(pair.plugged());
        assertThrows(IllegalArgumentException.class, () -> pair.misbehave(new Fault.Stuck()));
    }

    @Test
    void aFolderThatIsNotThereIsSaid() {
        IOException says =
                assertThrows(IOException.class, () -> SocatPair.start(folder.resolve("missing")));
        assertTrue(says.getMessage().contains("missing"), says.getMessage());
    }

    /** A process of its own; what it does is in {@link Bystander}. */
    private Process bystander(List<String> before, String... arguments) throws IOException {
        List<String> command = new java.util.ArrayList<>(before);
        command.addAll(
                List.of(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-Xmx64m",
                        "-cp",
                        System.getProperty("java.class.path"),
                        Bystander.class.getName()));
        command.addAll(List.of(arguments));
        return new ProcessBuilder(command).redirectErrorStream(true).start();
    }

    @Test
    void thePairEndsWithAProcessThatIsKilled() throws IOException {
        Process owner = bystander(List.of(), "own", folder.toString());
        Path far = folder.resolve("far");
        await("the pair is there", () -> Files.exists(far));
        owner.destroyForcibly();
        await("the pair has gone", () -> !Files.exists(far));
    }

    /** Such a process would take the terminal as its own and be ended by SIGHUP with it. */
    @Test
    void aProcessThatLeadsItsSessionSurvivesTheUnplug() throws IOException, InterruptedException {
        try (SocatPair pair = SocatPair.start(folder)) {
            Process leader =
                    bystander(List.of("setsid", "--wait"), "listen", pair.far().toString());
            Path seen = folder.resolve("far.connected");
            await("it listens", () -> Files.exists(seen) || !leader.isAlive());
            pair.unplug();
            assertTrue(leader.waitFor(1, TimeUnit.MINUTES));
            assertEquals(
                    "survived\n",
                    new String(
                            leader.getInputStream().readAllBytes(),
                            java.nio.charset.StandardCharsets.UTF_8));
            assertEquals(0, leader.exitValue());
        }
    }
}
