package lookstep.server.soak;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;

class BeatsTest {
    private static final long MILLI = 1_000_000;

    private final AtomicLong wall = new AtomicLong();
    private final Beats beats = new Beats("a line", 1, 100 * MILLI, wall::get);

    @Test
    void allPeriodsCount() {
        // Beats at 0, 1, 3, 6 ... : the periods are 1 to 1000 ms, so the k-th thousandth is k ms.
        long now = -5;
        beats.beat(now);
        for (int period = 1; period <= 1000; period++) {
            now += period * MILLI;
            beats.beat(now);
        }
        assertEquals(
                new Beats.Figures(
                        1000, 11 * MILLI, 501 * MILLI, 991 * MILLI, 1000 * MILLI, 1000 * MILLI),
                beats.figures());
        assertEquals(980 * MILLI, beats.figures().spread());
        assertEquals(900, beats.gaps().size());
    }

    @Test
    void aGapIsLongerThanTheLimitAndHasItsTime() {
        beats.beat(0);
        beats.beat(100 * MILLI);
        assertEquals(List.of(), beats.gaps());
        wall.set(77);
        beats.beat(200 * MILLI + 1);
        assertEquals(List.of(new Beats.Gap(77, 100 * MILLI + 1)), beats.gaps());
    }

    @Test
    void anOutputThatHasStoppedIsAGapAtTheEnd() {
        beats.beat(0);
        beats.end(101 * MILLI);
        assertEquals(List.of(new Beats.Gap(0, 101 * MILLI)), beats.gaps());
    }

    @Test
    void afterTheEndNothingCounts() {
        beats.beat(0);
        beats.end(100 * MILLI);
        assertEquals(0, beats.figures().count());
        beats.beat(500 * MILLI);
        beats.end(900 * MILLI);
        assertEquals(0, beats.figures().count());
        assertEquals(List.of(), beats.gaps());
    }
}
