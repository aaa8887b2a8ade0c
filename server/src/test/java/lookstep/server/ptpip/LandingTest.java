package lookstep.server.ptpip;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.UUID;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class LandingTest {
    @TempDir Path frames;
    private Path folder;
    private Landing landing;

    @BeforeEach
    void folder() {
        folder = frames.resolve("camera");
        landing = new Landing(folder, new UUID(0, 1));
    }

    private static byte[] octets(int count, int value) {
        byte[] octets = new byte[count];
        Arrays.fill(octets, (byte) value);
        return octets;
    }

    private long files() throws IOException {
        try (Stream<Path> all = Files.list(folder)) {
            return all.count();
        }
    }

    @Test
    void aFileGrowsHiddenAndGetsItsNameWhenItIsWhole() throws Exception {
        Path file = landing.reserve("A.JPG");
        landing.write(file, 0, octets(10, 1));
        assertFalse(Files.exists(file));
        assertTrue(Files.exists(folder.resolve(".A.JPG.part")));
        assertEquals(10, landing.there(file));
        landing.write(file, 10, octets(5, 2));
        assertEquals(file, landing.finish(file, "A.JPG"));
        assertEquals(15, Files.size(file));
        assertEquals(1, files());
    }

    @Test
    void whatIsWrittenAgainIsNotLongerThanIt() throws Exception {
        Path file = landing.reserve("A.JPG");
        landing.write(file, 0, octets(100, 1));
        landing.write(file, 0, octets(10, 2));
        landing.finish(file, "A.JPG");
        assertArrayEquals(octets(10, 2), Files.readAllBytes(file));
    }

    @Test
    void twoFilesOfOneNameOnTheirWay() throws Exception {
        Path first = landing.reserve("A.JPG");
        Path second = landing.reserve("a.jpg");
        assertEquals("a (2).jpg", second.getFileName().toString());
        landing.write(first, 0, octets(1, 1));
        landing.write(second, 0, octets(1, 2));
        assertEquals(second, landing.finish(second, "a.jpg"));
        assertEquals(first, landing.finish(first, "A.JPG"));
        assertArrayEquals(octets(1, 1), Files.readAllBytes(first));
        assertArrayEquals(octets(1, 2), Files.readAllBytes(second));
    }

    @Test
    void aFileThatSomeoneElsePutsThereMeanwhileStays() throws Exception {
        Path file = landing.reserve("A.JPG");
        landing.write(file, 0, octets(3, 1));
        Files.write(file, octets(4, 9));
        Path other = landing.finish(file, "A.JPG");
        assertEquals("A (2).JPG", other.getFileName().toString());
        assertArrayEquals(octets(4, 9), Files.readAllBytes(file));
        assertArrayEquals(octets(3, 1), Files.readAllBytes(other));
        assertEquals(2, files());
    }

    @Test
    void theSameFileAgainIsTheOneThatIsThere() throws Exception {
        Files.createDirectories(folder);
        Files.write(folder.resolve("A.JPG"), octets(3, 1));
        assertTrue(landing.holds("A.JPG", 3));
        assertFalse(landing.holds("A.JPG", 4));
        Path file = landing.reserve("A.JPG");
        landing.write(file, 0, octets(3, 1));
        assertEquals(folder.resolve("A.JPG"), landing.finish(file, "A.JPG"));
        assertEquals(1, files());
    }

    @Test
    void aFileThatDoesNotComeLeavesNothingAndItsNameIsFree() throws Exception {
        Path file = landing.reserve("A.JPG");
        landing.write(file, 0, octets(3, 1));
        landing.drop(file);
        assertEquals(0, files());
        assertEquals(file, landing.reserve("A.JPG"));
    }

    /** What Linux says when a disk is full, from memory: "No space left on device". */
    @Test
    void aFullDiskIsCalledFull() {
        Path file = folder.resolve("A.JPG");
        assertEquals(
                "The disk is full: A.JPG does not fit. Make room on the disk of "
                        + folder
                        + "; the picture is still in the camera and comes by itself then.",
                DiskWords.of(file, new IOException("No space left on device")));
        assertTrue(
                DiskWords.of(frames.resolve("A.JPG"), new AccessDeniedException("A.JPG"))
                        .startsWith("The folder may not be written to: " + frames));
    }
}
