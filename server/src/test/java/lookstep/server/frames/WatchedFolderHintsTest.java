package lookstep.server.frames;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * With the system's real hints. The loop's own clock creeps, so that no listing comes due and only
 * a hint can tell; the test waits on conditions.
 */
class WatchedFolderHintsTest {
    private static final long STEP_NANOS = 20_000;

    @TempDir Path above;
    private final List<String> problems = new ArrayList<>();
    private final List<ArrivedFile> arrived = new ArrayList<>();
    private final List<byte[]> taken = new ArrayList<>();
    private long now;

    private void take(ArrivedFile file) {
        arrived.add(file);
        try {
            taken.add(Files.readAllBytes(file.path()));
        } catch (IOException e) {
            problems.add(e.toString());
        }
    }

    private void awaitFiles(WatchedFolder watched, int count) {
        long began = System.nanoTime();
        while (arrived.size() < count) {
            now += STEP_NANOS;
            watched.doWork(now);
            assertTrue(now < WatchedFolder.LIST_EVERY_NANOS, "a listing would tell now");
            assertTrue(
                    System.nanoTime() - began < TimeUnit.MINUTES.toNanos(1),
                    () -> arrived.size() + " of " + count + " came");
            LockSupport.parkNanos(500_000);
        }
    }

    @Test
    void picturesAreTakenWholeHoweverTheyAreWritten() throws IOException, InterruptedException {
        Path folder = Files.createDirectory(above.resolve("frames"));
        byte[] jpeg = TestPictures.jpeg(1200, 800);
        int[] main = new int[1];
        byte[] both = TestPictures.twoInOne(jpeg, TestPictures.jpeg(600, 400), main);
        Path outside = Files.write(above.resolve("outside.jpg"), both);
        try (WatchedFolder watched =
                new WatchedFolder(
                        folder, Set.of(), this::take, note -> problems.add(note.words()))) {
            watched.doWork(now);
            Thread writer =
                    new Thread(
                            () -> {
                                try {
                                    for (int i = 0; i < 8; i++) {
                                        pieces(folder.resolve("piece" + i + ".jpg"), both, main[0]);
                                    }
                                    for (int i = 0; i < 4; i++) {
                                        Files.copy(outside, folder.resolve("copy" + i + ".jpg"));
                                    }
                                    Path sub = Files.createDirectory(folder.resolve("101ABC"));
                                    for (int i = 0; i < 4; i++) {
                                        Path part = sub.resolve("move" + i + ".part");
                                        Files.write(part, both);
                                        Files.move(
                                                part,
                                                sub.resolve("move" + i + ".jpg"),
                                                StandardCopyOption.ATOMIC_MOVE);
                                    }
                                } catch (IOException e) {
                                    throw new java.io.UncheckedIOException(e);
                                }
                            });
            writer.start();
            awaitFiles(watched, 16);
            writer.join();
        }
        assertEquals(List.of(), problems);
        assertEquals(16, arrived.stream().map(ArrivedFile::path).distinct().count());
        for (byte[] bytes : taken) {
            assertArrayEquals(both, bytes);
        }
    }

    /** In pieces, and with a stall just after the end marker of the first picture. */
    private static void pieces(Path file, byte[] bytes, int stallAt) throws IOException {
        try (OutputStream out = Files.newOutputStream(file)) {
            for (int at = 0; at < stallAt; at += 4096) {
                out.write(bytes, at, Math.min(4096, stallAt - at));
            }
            LockSupport.parkNanos(20_000_000);
            out.write(bytes, stallAt, bytes.length - stallAt);
        }
    }
}
