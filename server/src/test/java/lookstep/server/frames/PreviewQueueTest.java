package lookstep.server.frames;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import lookstep.server.frames.PreviewResult.FrameProblem;
import org.junit.jupiter.api.Test;

class PreviewQueueTest {
    private final Deque<Runnable> threads = new ArrayDeque<>();
    private final List<String> made = new ArrayList<>();
    private final PreviewQueue queue =
            new PreviewQueue(
                    threads::add,
                    path -> new FrameProblem(path, path.toString()),
                    (number, result) -> made.add(number + " " + ((FrameProblem) result).words()));

    @Test
    void theNewestComesFirst() {
        queue.add(1, Path.of("a"));
        threads.remove().run();
        for (int i = 2; i <= 10; i++) {
            queue.add(i, Path.of("f" + i));
        }
        assertEquals(9, queue.waiting());
        threads.remove().run();
        queue.add(11, Path.of("last"));
        while (!threads.isEmpty()) {
            threads.remove().run();
        }
        assertEquals(
                List.of(
                        "1 a", "10 f10", "11 last", "9 f9", "8 f8", "7 f7", "6 f6", "5 f5", "4 f4",
                        "3 f3", "2 f2"),
                made);
        assertEquals(0, queue.waiting());
    }
}
