package lookstep.server.frames;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertSame;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lookstep.server.frames.PreviewResult.FrameProblem;
import lookstep.server.frames.PreviewResult.Preview;
import org.junit.jupiter.api.Test;

class FrameStoreTest {
    private final List<String> made = new ArrayList<>();
    private boolean driveIsOut;
    private final FrameStore store =
            new FrameStore(
                    3,
                    path -> {
                        made.add(path.toString());
                        return driveIsOut
                                ? new FrameProblem(path, "the drive is out")
                                : new Preview(new byte[] {1}, 1, 1);
                    });

    private void fill(int frames) {
        for (int i = 1; i <= frames; i++) {
            store.add(i, Path.of("f" + i));
            store.put(i, new Preview(new byte[] {(byte) i}, i, i));
        }
    }

    @Test
    void keepsTheNewest() {
        fill(10);
        assertEquals(3, store.kept());
        for (int i = 8; i <= 10; i++) {
            assertEquals(
                    i,
                    assertInstanceOf(Preview.class, store.preview(i).orElseThrow()).widthPixels());
        }
        assertEquals(List.of(), made);
    }

    @Test
    void makesAnOldOneAgainOnceWhileItIsLookedAt() {
        fill(10);
        PreviewResult first = store.preview(2).orElseThrow();
        assertSame(first, store.preview(2).orElseThrow());
        assertEquals(List.of("f2"), made);
        for (int i = 3; i <= 6; i++) {
            store.preview(i);
        }
        store.preview(2);
        assertEquals(List.of("f2", "f3", "f4", "f5", "f6", "f2"), made);
        assertEquals(3, store.kept());
    }

    @Test
    void aProblemIsNotKept() {
        fill(10);
        driveIsOut = true;
        assertInstanceOf(FrameProblem.class, store.preview(1).orElseThrow());
        driveIsOut = false;
        assertInstanceOf(Preview.class, store.preview(1).orElseThrow());
    }

    @Test
    void aFrameWhosePreviewIsNotMadeYetIsMadeForWhoAsks() {
        store.add(1, Path.of("f1"));
        assertInstanceOf(Preview.class, store.preview(1).orElseThrow());
        assertEquals(List.of("f1"), made);
    }

    @Test
    void anUnknownNumberIsNothing() {
        assertEquals(Optional.empty(), store.preview(99));
    }
}
