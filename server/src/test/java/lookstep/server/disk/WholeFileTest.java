package lookstep.server.disk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class WholeFileTest {
    @TempDir Path folder;

    private Path file(String name, String content) throws IOException {
        return Files.writeString(folder.resolve(name), content);
    }

    @ParameterizedTest
    @CsvSource({
        "LS_0001.JPG, 1, LS_0001.JPG",
        "LS_0001.JPG, 2, LS_0001 (2).JPG",
        "LS_0001.JPG, 13, LS_0001 (13).JPG",
        "a.b.CR, 2, a.b (2).CR",
        "noending, 2, noending (2)",
        ".hidden, 2, .hidden (2)"
    })
    void takenNamesAreNumbered(String wanted, int n, String expected) {
        assertEquals(expected, FreeName.nth(wanted, n));
        assertEquals(Path.of("x", expected), FreeName.nth(Path.of("x", wanted), n));
    }

    @Test
    void aFileIsPutOverNoOther() throws IOException {
        Path first = file("LS_0001.JPG", "first");
        Path part = file(".LS_0001.JPG.part", "other");
        assertThrows(FileAlreadyExistsException.class, () -> WholeFile.rename(part, first));
        assertEquals("first", Files.readString(first));
        assertEquals("other", Files.readString(part));
        WholeFile.Placed placed = WholeFile.place(part, first);
        assertEquals(new WholeFile.Placed(folder.resolve("LS_0001 (2).JPG"), true), placed);
        assertEquals("first", Files.readString(first));
        assertEquals("other", Files.readString(placed.path()));
        assertFalse(Files.exists(part));
    }

    @Test
    void theSameContentIsThereOnce() throws IOException {
        Path first = file("LS_0001.JPG", "first");
        file("LS_0001 (2).JPG", "other");
        Path part = file(".LS_0001.JPG.part", "other");
        assertEquals(
                new WholeFile.Placed(folder.resolve("LS_0001 (2).JPG"), false),
                WholeFile.place(part, first));
        assertFalse(Files.exists(part));
    }

    @Test
    void ofManyAtOnceNoneIsLost() throws Exception {
        int many = 8;
        int rounds = 25;
        ExecutorService hands = Executors.newFixedThreadPool(many);
        try {
            for (int round = 0; round < rounds; round++) {
                Path wanted = folder.resolve("round" + round + ".JPG");
                CyclicBarrier together = new CyclicBarrier(many);
                List<Future<Path>> placed = new ArrayList<>();
                for (int i = 0; i < many; i++) {
                    Path part = file("." + round + "-" + i + ".part", "content " + i);
                    placed.add(
                            hands.submit(
                                    () -> {
                                        together.await();
                                        return WholeFile.place(part, wanted).path();
                                    }));
                }
                Set<String> contents = new TreeSet<>();
                for (Future<Path> one : placed) {
                    contents.add(Files.readString(one.get(30, TimeUnit.SECONDS)));
                }
                assertEquals(many, contents.size(), contents.toString());
            }
        } finally {
            hands.shutdown();
        }
    }

    @Test
    void whatIsGoneOnWithIsCutOffAfterIt() throws IOException {
        Path half = file(".LS_0001.JPG.part", "abcdefgh");
        try (Disk.Growing growing = Disk.REAL.goOn(half, 3)) {
            growing.write(ByteBuffer.wrap("XY".getBytes(StandardCharsets.US_ASCII)));
            growing.sync();
        }
        assertEquals("abcXY", Files.readString(half));
        assertThrows(FileAlreadyExistsException.class, () -> Disk.REAL.create(half));
    }

    @Test
    void foldersAreMadeAndFilesInTheirWayAreSaid() throws IOException {
        WholeFile.makeFolder(folder.resolve("a/b/c"));
        assertTrue(Files.isDirectory(folder.resolve("a/b/c")));
        Path file = file("d", "");
        assertThrows(
                FileAlreadyExistsException.class, () -> WholeFile.makeFolder(file.resolve("e")));
    }

    /** As the system itself says it: Linux has a file for the purpose. */
    @Test
    void aFullDiskIsKnownByTheSystemsWords() throws IOException {
        Path full = Path.of("/dev/full");
        assumeTrue(Files.exists(full), "only Linux has it");
        try (Disk.Growing growing = Disk.REAL.goOn(full, 0)) {
            IOException said =
                    assertThrows(IOException.class, () -> growing.write(ByteBuffer.allocate(1)));
            assertTrue(DiskFull.is(said), said.getMessage());
        }
        assertFalse(DiskFull.is(new IOException("Input/output error")));
        assertFalse(DiskFull.is(new IOException((String) null)));
    }
}
