package lookstep.server.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Pictures beside the plan are shown; a plan that came from somebody else opens nothing more. */
class ReferencesTest {
    @TempDir Path dir;

    private Optional<Path> first(String name) {
        return new References(dir.resolve("shoot"), () -> List.of(name), Runnable::run).file("1");
    }

    @Test
    void onlyPicturesBesideThePlan() throws IOException {
        Path shoot = Files.createDirectories(dir.resolve("shoot/looks"));
        Path picture = Files.writeString(shoot.resolve("a.JPG"), "x");
        Files.writeString(dir.resolve("secret.jpg"), "x");
        Files.writeString(shoot.resolve("notes.txt"), "x");
        Files.createSymbolicLink(shoot.resolve("link.jpg"), dir.resolve("secret.jpg"));
        assertEquals(Optional.of(picture.toRealPath()), first("looks/a.JPG"));
        for (String other :
                List.of(
                        "../secret.jpg",
                        dir.resolve("secret.jpg").toString(),
                        "looks/link.jpg",
                        "looks/notes.txt",
                        "looks",
                        "none.jpg",
                        "a\u0000.jpg")) {
            assertEquals(Optional.empty(), first(other), other);
        }
        References two = new References(shoot, () -> List.of("a.JPG"), Runnable::run);
        for (String number : List.of("0", "2", "-1", "x", "99999", "")) {
            assertTrue(two.file(number).isEmpty(), number);
        }
    }
}
