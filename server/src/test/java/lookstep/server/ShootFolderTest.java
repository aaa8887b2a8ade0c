package lookstep.server;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ShootFolderTest {
    @TempDir Path dir;

    @Test
    void theSenderIsTheSameInEveryRun() throws IOException {
        ShootFolder folder = new ShootFolder(dir);
        UUID first = folder.senderId();
        assertEquals(first, new ShootFolder(dir).senderId());
        assertNotEquals(
                first, new ShootFolder(Files.createDirectory(dir.resolve("other"))).senderId());
    }

    /** Cut off by a crash or a full disk; and nobody waits for light because of it. */
    @ParameterizedTest
    @ValueSource(strings = {"", "\n", "12345678-1234", "\u00e9\u0000"})
    void oneThatCannotBeReadIsMadeAnewAndKept(String damaged) throws IOException {
        Files.write(dir.resolve("sender-id"), damaged.getBytes(StandardCharsets.ISO_8859_1));
        UUID made = new ShootFolder(dir).senderId();
        assertEquals(made, new ShootFolder(dir).senderId());
    }
}
