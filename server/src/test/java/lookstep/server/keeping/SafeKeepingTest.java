package lookstep.server.keeping;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.Stream;
import lookstep.server.Program;
import lookstep.server.disk.Disk;
import lookstep.server.disk.SmallDisk;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SafeKeepingTest {
    private static final long SECOND = 1_000_000_000L;
    private static final int PIECE = 1000;

    /** FIPS 180-4: the one-block message of NIST's examples of SHA-256. */
    private static final String OF_ABC =
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";

    @TempDir Path temp;
    private Path frames;
    private Path copies;
    private final List<String> copied = new ArrayList<>();
    private final List<String> told = new ArrayList<>();
    private long now = 5 * SECOND;

    @BeforeEach
    void folders() throws IOException {
        frames = Files.createDirectory(temp.resolve("frames"));
        copies = Files.createDirectory(temp.resolve("copies"));
    }

    private SafeKeeping keeping(Disk disk, boolean usedBefore) {
        return new SafeKeeping(
                frames,
                copies,
                usedBefore,
                new SafeKeeping.Listener() {
                    @Override
                    public void copied(int frame, Path file, String sha256, Path copy) {
                        copied.add(
                                frame
                                        + " "
                                        + frames.relativize(file)
                                        + " "
                                        + sha256
                                        + " "
                                        + copies.relativize(copy));
                    }

                    @Override
                    public void told(boolean up, String words) {
                        told.add((up ? "up: " : "down: ") + words);
                    }
                },
                disk,
                PIECE);
    }

    private SafeKeeping keeping() {
        return keeping(Disk.REAL, false);
    }

    /** Calls it whenever it wants to be called, for so long on its clock. */
    private int run(SafeKeeping keeping, long nanos) {
        int steps = 0;
        for (long end = now + nanos; now < end; steps++) {
            now = Math.max(now + 1, keeping.doWork(now));
        }
        return steps;
    }

    private Path original(String name, byte[] content) throws IOException {
        Path file = frames.resolve(name);
        Files.createDirectories(file.getParent());
        return Files.write(file, content);
    }

    private static byte[] bytes(int seed, int count) {
        byte[] bytes = new byte[count];
        new Random(seed).nextBytes(bytes);
        return bytes;
    }

    private static byte[] ascii(String text) {
        return text.getBytes(StandardCharsets.US_ASCII);
    }

    private List<String> names() throws IOException {
        try (Stream<Path> all = Files.walk(copies)) {
            return all.filter(Files::isRegularFile)
                    .map(path -> copies.relativize(path).toString())
                    .sorted()
                    .toList();
        }
    }

    private static CopyState only(SafeKeeping keeping) {
        Map<Original, CopyState> states = keeping.states();
        assertEquals(1, states.size());
        return states.values().iterator().next();
    }

    @ParameterizedTest
    @CsvSource({
        // FIPS 180-4: NIST's examples of SHA-256, one block and two.
        "abc, " + OF_ABC,
        "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq,"
                + " 248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1"
    })
    void theHashIsThatOfTheStandard(String content, String sha256) throws IOException {
        Path file = original("ines-body/LS_0001.JPG", ascii(content));
        SafeKeeping keeping = keeping();
        keeping.add(7, file);
        assertEquals(Map.of(new Original(7, file), new CopyState.Waiting()), keeping.states());
        run(keeping, SECOND);
        assertEquals(new CopyState.Safe(sha256), only(keeping));
        assertEquals(
                List.of("7 ines-body/LS_0001.JPG " + sha256 + " ines-body/LS_0001.JPG"), copied);
        assertEquals(content, Files.readString(copies.resolve("ines-body/LS_0001.JPG")));
        assertEquals(List.of(SecondPlace.MARKER, "ines-body/LS_0001.JPG"), names());
        assertEquals(List.of(), told);
    }

    @ParameterizedTest
    @CsvSource({"0", "1", "999", "1000", "1001", "123456"})
    void theHashIsThatOfAnotherProgram(int count) throws IOException {
        byte[] content = bytes(count, count);
        Path file = original("LS_0001.JPG", content);
        SafeKeeping keeping = keeping();
        keeping.add(1, file);
        run(keeping, SECOND);
        String said =
                new String(
                        Program.run(
                                "coreutils", "sha256sum", copies.resolve("LS_0001.JPG").toString()),
                        StandardCharsets.UTF_8);
        assertEquals(new CopyState.Safe(said.substring(0, 64)), only(keeping));
        assertArrayEquals(content, Files.readAllBytes(copies.resolve("LS_0001.JPG")));
    }

    @Test
    void aBigFileIsCopiedInPiecesAndHasNoNameBefore() throws IOException {
        Path file = original("LS_0001.JPG", bytes(1, 20 * PIECE));
        SafeKeeping keeping = keeping();
        keeping.add(1, file);
        int steps = 0;
        double part = -1;
        keeping.doWork(now);
        while (only(keeping) instanceof CopyState.Copying copying) {
            assertTrue(copying.part() >= part && copying.part() <= 1, copying.toString());
            part = copying.part();
            assertEquals(
                    List.of(SecondPlace.MARKER, ".LS_0001.JPG.part").stream().sorted().toList(),
                    names());
            keeping.doWork(now);
            steps++;
        }
        assertInstanceOf(CopyState.Safe.class, only(keeping));
        // 20 pieces are written, 20 are read back, and each has its end.
        assertEquals(41, steps);
        assertEquals(
                List.of(SecondPlace.MARKER, "LS_0001.JPG").stream().sorted().toList(), names());
    }

    @Test
    void manyAreCopiedOneAfterTheOtherAndOneAddedTwiceOnce() throws IOException {
        SafeKeeping keeping = keeping();
        for (int i = 1; i <= 30; i++) {
            Path file = original("a/LS_%04d.JPG".formatted(i), bytes(i, 1234 + i));
            keeping.add(i, file);
            keeping.add(i, file);
        }
        run(keeping, SECOND);
        assertEquals(30, copied.size());
        assertEquals(31, names().size());
        assertEquals(30, keeping.states().size());
        assertTrue(keeping.states().values().stream().allMatch(CopyState.Safe.class::isInstance));
    }

    @Test
    void aTakenNameIsLeftAloneUnlessItIsTheSame() throws IOException {
        Files.write(copies.resolve("LS_0001.JPG"), ascii("abd"));
        Files.write(copies.resolve("LS_0002.JPG"), ascii("abc"));
        SafeKeeping keeping = keeping();
        keeping.add(1, original("LS_0001.JPG", ascii("abc")));
        keeping.add(2, original("LS_0002.JPG", ascii("abc")));
        run(keeping, SECOND);
        assertEquals(
                List.of(
                        "1 LS_0001.JPG " + OF_ABC + " LS_0001 (2).JPG",
                        "2 LS_0002.JPG " + OF_ABC + " LS_0002.JPG"),
                copied);
        assertEquals("abd", Files.readString(copies.resolve("LS_0001.JPG")));
        assertEquals("abc", Files.readString(copies.resolve("LS_0001 (2).JPG")));
        assertEquals(4, names().size());
    }

    /** After a restart the journal may not have had the last word: it is asked for again. */
    @Test
    void askedForAgainAfterARestartItIsSafeWithoutASecondCopy() throws IOException {
        Path file = original("LS_0001.JPG", ascii("abc"));
        for (int runs = 0; runs < 2; runs++) {
            SafeKeeping keeping = keeping(Disk.REAL, runs > 0);
            keeping.add(1, file);
            run(keeping, SECOND);
            keeping.close();
        }
        assertEquals(2, copied.size());
        assertEquals(copied.get(0), copied.get(1));
        assertEquals(2, names().size());
    }

    @Test
    void afterACrashOnlyAHiddenPartIsThereAndIsReplaced() throws IOException {
        byte[] content = bytes(1, 10 * PIECE);
        Path file = original("LS_0001.JPG", content);
        SafeKeeping crashed = keeping();
        crashed.add(1, file);
        for (int i = 0; i < 5; i++) {
            crashed.doWork(now);
        }
        assertTrue(names().contains(".LS_0001.JPG.part"));
        assertFalse(names().contains("LS_0001.JPG"));
        SafeKeeping next = keeping(Disk.REAL, true);
        next.add(1, file);
        run(next, SECOND);
        assertArrayEquals(content, Files.readAllBytes(copies.resolve("LS_0001.JPG")));
        assertEquals(2, names().size());
    }

    /** A crash between the two halves of a rename leaves two names of one file. */
    @Test
    void aPartThatIsASecondNameOfACopyDoesItNoHarm() throws IOException {
        Path copy = Files.write(copies.resolve("LS_0001.JPG"), ascii("of old"));
        Files.createLink(copies.resolve(".LS_0001.JPG.part"), copy);
        SafeKeeping keeping = keeping();
        keeping.add(1, original("LS_0001.JPG", ascii("abc")));
        run(keeping, SECOND);
        assertEquals("of old", Files.readString(copy));
        assertEquals("abc", Files.readString(copies.resolve("LS_0001 (2).JPG")));
        assertFalse(names().contains(".LS_0001.JPG.part"));
    }

    @Test
    void aFullPlaceIsSaidOnceAndNothingIsLost() throws IOException {
        SmallDisk disk = new SmallDisk(3500);
        SafeKeeping keeping = keeping(disk, false);
        List<byte[]> contents = new ArrayList<>();
        for (int i = 1; i <= 3; i++) {
            byte[] content = bytes(i, 3000);
            contents.add(content);
            keeping.add(i, original("LS_000" + i + ".JPG", content));
        }
        run(keeping, 60 * SECOND);
        String words =
                "he second place "
                        + copies
                        + " is full: make room there; copying goes on by itself";
        assertEquals(List.of("down: T" + words), told);
        assertEquals(1, copied.size());
        List<CopyState> states = List.copyOf(keeping.states().values());
        assertInstanceOf(CopyState.Safe.class, states.get(0));
        assertEquals("t" + words, assertInstanceOf(CopyState.Failed.class, states.get(1)).words());
        assertEquals(
                List.of(SecondPlace.MARKER, "LS_0001.JPG").stream().sorted().toList(), names());
        disk.makeRoom();
        run(keeping, 11 * SECOND);
        assertEquals(List.of("down: T" + words, "up: Copies go to " + copies + " again"), told);
        for (int i = 1; i <= 3; i++) {
            assertArrayEquals(
                    contents.get(i - 1), Files.readAllBytes(copies.resolve("LS_000" + i + ".JPG")));
        }
        assertEquals(4, names().size());
    }

    @Test
    void triesComeWithGrowingPausesOfAtMostTenSeconds() throws IOException {
        SafeKeeping keeping = keeping(new SmallDisk(0), false);
        keeping.add(1, original("LS_0001.JPG", ascii("abc")));
        List<Long> millis = new ArrayList<>();
        for (int i = 0; i < 8; i++) {
            // The last step that came about tells when the next try is.
            keeping.doWork(now);
            long again = assertInstanceOf(CopyState.Failed.class, only(keeping)).againAtNanos();
            millis.add((again - now) / 1_000_000);
            keeping.doWork(again - 1);
            assertEquals(
                    again,
                    assertInstanceOf(CopyState.Failed.class, only(keeping)).againAtNanos(),
                    "one nanosecond before, nothing is tried");
            now = again;
        }
        assertEquals(List.of(250L, 500L, 1000L, 2000L, 4000L, 8000L, 10000L, 10000L), millis);
    }

    @Test
    void aPlaceThatGoesAwayIsNotMadeAnewAndGoesOnWhenItIsBack() throws IOException {
        SafeKeeping keeping = keeping();
        keeping.add(1, original("a/LS_0001.JPG", ascii("abc")));
        run(keeping, SECOND);
        assertEquals(1, copied.size());
        Path drive = Files.move(copies, temp.resolve("drive"));
        // The bare folder on which the drive was mounted.
        Files.createDirectory(copies);
        keeping.add(2, original("a/LS_0002.JPG", ascii("abc")));
        run(keeping, 60 * SECOND);
        assertEquals(List.of(), names());
        assertEquals(
                List.of(
                        "down: The second place "
                                + copies
                                + " is gone: plug its drive in again; copying goes on by itself"),
                told);
        Files.delete(copies);
        run(keeping, 60 * SECOND);
        assertFalse(Files.exists(copies));
        assertEquals(1, told.size());
        Files.move(drive, copies);
        run(keeping, 11 * SECOND);
        assertEquals(2, copied.size());
        assertEquals("up: Copies go to " + copies + " again", told.get(1));
        assertEquals(3, names().size());
    }

    @Test
    void aPlaceThatGoesAwayInTheMiddleGetsNoFile() throws IOException {
        byte[] content = bytes(1, 10 * PIECE);
        SafeKeeping keeping = keeping();
        keeping.add(1, original("LS_0001.JPG", content));
        for (int i = 0; i < 13; i++) {
            keeping.doWork(now);
        }
        assertInstanceOf(CopyState.Copying.class, only(keeping));
        Path drive = Files.move(copies, temp.resolve("drive"));
        Files.createDirectory(copies);
        run(keeping, 5 * SECOND);
        assertEquals(List.of(), names());
        assertEquals(List.of(), copied);
        assertTrue(told.get(0).contains("is gone"), told.toString());
        Files.delete(copies);
        Files.move(drive, copies);
        run(keeping, 11 * SECOND);
        assertArrayEquals(content, Files.readAllBytes(copies.resolve("LS_0001.JPG")));
        assertEquals(2, names().size());
    }

    @Test
    void whereCopiesWereBeforeNothingIsWrittenWithoutTheMarker() throws IOException {
        SafeKeeping keeping = keeping(Disk.REAL, true);
        keeping.add(1, original("LS_0001.JPG", ascii("abc")));
        run(keeping, 20 * SECOND);
        assertEquals(List.of(), names());
        assertTrue(told.get(0).contains("is gone"), told.toString());
    }

    @Test
    void atItsFirstUseThePlaceMustBeThere() throws IOException {
        Files.delete(copies);
        SafeKeeping keeping = keeping();
        keeping.add(1, original("LS_0001.JPG", ascii("abc")));
        run(keeping, 20 * SECOND);
        assertFalse(Files.exists(copies));
        assertEquals(
                List.of(
                        "down: The second place "
                                + copies
                                + " is not there: plug its drive in, or make the folder; copying"
                                + " begins by itself"),
                told);
        Files.createDirectory(copies);
        run(keeping, 11 * SECOND);
        assertEquals(1, copied.size());
    }

    @Test
    void anOriginalThatIsGoneIsSaidAndHoldsUpNoOther() throws IOException {
        Path gone = frames.resolve("LS_0001.JPG");
        SafeKeeping keeping = keeping();
        keeping.add(1, gone);
        keeping.add(2, original("LS_0002.JPG", ascii("abc")));
        run(keeping, 60 * SECOND);
        assertEquals(List.of("2 LS_0002.JPG " + OF_ABC + " LS_0002.JPG"), copied);
        assertEquals(
                List.of("up: " + gone + " is gone before it was copied: put it back there"), told);
        original("LS_0001.JPG", ascii("abc"));
        run(keeping, 11 * SECOND);
        assertEquals(2, copied.size());
        assertEquals("up: LS_0001.JPG is copied after all", told.get(1));
    }

    @Test
    void anOriginalThatChangesWhileItIsCopiedIsCopiedAnew() throws IOException {
        Path file = original("LS_0001.JPG", bytes(1, 10 * PIECE));
        SafeKeeping keeping = keeping();
        keeping.add(1, file);
        for (int i = 0; i < 5; i++) {
            keeping.doWork(now);
        }
        byte[] changed = bytes(2, 11 * PIECE);
        Files.write(file, changed);
        run(keeping, SECOND / 8);
        assertEquals(
                List.of("up: LS_0001.JPG changed while it was copied; it is copied anew"), told);
        assertEquals(List.of(SecondPlace.MARKER), names());
        run(keeping, SECOND);
        assertArrayEquals(changed, Files.readAllBytes(copies.resolve("LS_0001.JPG")));
        assertEquals(1, copied.size());
    }

    /** A drive that writes something else than it was told to. */
    @Test
    void aCopyThatReadsBackDifferentIsNotCalledSafe() throws IOException {
        boolean[] bad = {true};
        Disk lying =
                new Disk() {
                    @Override
                    public Growing create(Path file) throws IOException {
                        Growing real = Disk.REAL.create(file);
                        return new Growing() {
                            @Override
                            public void write(ByteBuffer bytes) throws IOException {
                                ByteBuffer other = ByteBuffer.allocate(bytes.remaining());
                                other.put(bytes).flip();
                                if (bad[0]) {
                                    other.put(0, (byte) (other.get(0) ^ 1));
                                }
                                real.write(other);
                            }

                            @Override
                            public void sync() throws IOException {
                                real.sync();
                            }

                            @Override
                            public void close() throws IOException {
                                real.close();
                            }
                        };
                    }

                    @Override
                    public Growing goOn(Path file, long offsetBytes) {
                        throw new AssertionError("copies are never gone on with");
                    }
                };
        SafeKeeping keeping = keeping(lying, false);
        keeping.add(1, original("LS_0001.JPG", ascii("abc")));
        run(keeping, 20 * SECOND);
        assertEquals(List.of(), copied);
        assertEquals(List.of(SecondPlace.MARKER), names());
        assertEquals(1, told.size());
        assertTrue(told.get(0).contains("reads back different"), told.toString());
        bad[0] = false;
        run(keeping, 11 * SECOND);
        assertEquals(new CopyState.Safe(OF_ABC), only(keeping));
    }

    @Test
    void oneDriveIsToldFromTwo() throws IOException {
        assertTrue(SafeKeeping.onOneDrive(frames, copies));
        Path memory = Path.of("/dev/shm");
        assumeTrue(Files.isDirectory(memory), "only Linux has it");
        assertFalse(SafeKeeping.onOneDrive(frames, memory));
    }

    @Test
    void aCopyIsVerifiedLater() throws IOException {
        Path copy = Files.write(copies.resolve("LS_0001.JPG"), ascii("abc"));
        assertTrue(SafeKeeping.verify(copy, OF_ABC));
        Files.write(copy, ascii("abd"));
        assertFalse(SafeKeeping.verify(copy, OF_ABC));
        Files.delete(copy);
        assertThrows(NoSuchFileException.class, () -> SafeKeeping.verify(copy, OF_ABC));
    }
}
