package lookstep.server.output;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import lookstep.protocols.dmx.DmxPacket;
import lookstep.protocols.dmx.DmxTiming;
import lookstep.protocols.wire.Line;
import lookstep.protocols.wire.LineLostException;
import lookstep.protocols.wire.LinePort;
import org.junit.jupiter.api.Test;

/** Limits: ANSI E1.11-2008 (R2018), break at least 92 us, mark after break at least 12 us. */
class LineDriverTest {
    private static final long US = 1000;
    private static final long MS = 1_000_000;

    /** A line on paper: writes down what happens when, on the test's clock. */
    private static final class PaperLine implements LinePort, Line {
        final List<String> events = new ArrayList<>();
        long now;
        boolean gone;
        int opened;
        boolean closed;

        @Override
        public String name() {
            return "paper";
        }

        @Override
        public Line open() throws LineLostException {
            if (gone) {
                throw new LineLostException("nothing at paper");
            }
            opened++;
            return this;
        }

        @Override
        public void startBreak() throws LineLostException {
            if (gone) {
                throw new LineLostException("paper is gone");
            }
            events.add("break " + now);
        }

        @Override
        public void endBreak() {
            events.add("mark " + now);
        }

        @Override
        public void write(byte[] bytes) {
            events.add("write " + now + " " + bytes.length + " slot1=" + (bytes[1] & 0xff));
        }

        @Override
        public void close() {
            closed = true;
        }
    }

    private final PaperLine line = new PaperLine();
    private final List<LineState> told = new ArrayList<>();
    private int level;
    private final LineDriver driver =
            new LineDriver(
                    line,
                    new DmxTiming(176 * US, 20 * US, 30 * MS),
                    now -> DmxPacket.ofSlots(slots(level)),
                    told::add);

    private static byte[] slots(int first) {
        byte[] slots = new byte[512];
        slots[0] = (byte) first;
        return slots;
    }

    private long at(long now) {
        line.now = now;
        return driver.doWork(now);
    }

    /** Runs the loop on the test's clock, each step when it wanted to be called. */
    private void runUntil(long end) {
        long due = line.now;
        while (due - end < 0) {
            line.now = Math.max(due, line.now);
            due = driver.doWork(line.now);
        }
        line.now = end;
    }

    @Test
    void breakMarkAndSlotsComeInOrderAndNotANanosecondEarly() {
        assertEquals(0, at(0)); // opens
        at(0); // break begins
        assertEquals(List.of("break 0"), line.events);
        // The request has returned, at 40 us; the break counts from here.
        assertEquals((40 + 176) * US, at(40 * US));
        assertEquals((40 + 176) * US, at((40 + 176) * US - 1));
        assertEquals(1, line.events.size());
        at((40 + 176) * US);
        assertEquals("mark " + 216 * US, line.events.get(1));
        // The mark request has returned, at 250 us.
        assertEquals((250 + 20) * US, at(250 * US));
        at((250 + 20) * US - 1);
        assertEquals(2, line.events.size());
        at((250 + 20) * US);
        assertEquals("write " + 270 * US + " 513 slot1=0", line.events.get(2));
    }

    @Test
    void thePeriodIsSteadyAndTheLineIsRefreshedThoughNothingChanges() {
        runUntil(10_000 * MS);
        List<Long> breaks =
                line.events.stream()
                        .filter(e -> e.startsWith("break "))
                        .map(e -> Long.parseLong(e.substring(6)))
                        .toList();
        assertEquals(334, breaks.size());
        for (int i = 1; i < breaks.size(); i++) {
            assertEquals(30 * MS, breaks.get(i) - breaks.get(i - 1));
        }
    }

    @Test
    void aChangeIsInTheNextPacket() {
        runUntil(100 * MS);
        level = 200;
        int before = line.events.size();
        runUntil(130 * MS);
        assertTrue(
                line.events.subList(before, line.events.size()).stream()
                        .anyMatch(e -> e.endsWith("slot1=200")));
    }

    @Test
    void aLateBeatNeverStartsABreakBeforeTheLastSlotCanHaveLeft() {
        at(0);
        at(0);
        at(0);
        at(176 * US);
        at(176 * US);
        // The thread was held up: the write comes 20 ms late.
        assertEquals(20 * MS, at(20 * MS));
        // It returns only 7 ms later: nobody knows when in between the first slot left.
        long next = at(27 * MS);
        // 513 slots of 44 us (E1.11: 11 bits of 4 us) after the write, and the adapter's lag.
        assertTrue(next >= 27 * MS + 513 * 44 * US, "next break at " + next);
        assertTrue(next > 30 * MS);
    }

    @Test
    void aLostLineIsToldOpenedAgainAndCarriesWhatIsWantedNow() {
        runUntil(100 * MS);
        assertEquals(List.of(true), told.stream().map(LineState::up).toList());
        line.gone = true;
        runUntil(700 * MS);
        assertFalse(told.get(1).up());
        assertTrue(line.closed);
        level = 77;
        line.gone = false;
        runUntil(1300 * MS);
        assertEquals(2, line.opened);
        assertTrue(told.get(told.size() - 1).up());
        assertTrue(line.events.get(line.events.size() - 1).endsWith("slot1=77"));
    }

    @Test
    void aLossIsToldOnceThoughEveryAttemptFails() {
        line.gone = true;
        runUntil(5_000 * MS);
        assertEquals(1, told.size());
    }

    @Test
    void periodsAreKeptAndAnAbsenceIsNone() {
        runUntil(100 * MS);
        line.gone = true;
        runUntil(5_000 * MS);
        line.gone = false;
        runUntil(6_000 * MS);
        long[] periods = driver.periods().sorted();
        assertEquals(30 * MS, periods[0]);
        assertEquals(30 * MS, periods[periods.length - 1]);
    }

    @Test
    void aWriteThatDoesNotReturnIsFreedByClosingTheLine() throws Exception {
        Object gate = new Object();
        boolean[] freed = new boolean[1];
        LinePort stuck =
                new LinePort() {
                    @Override
                    public String name() {
                        return "stuck";
                    }

                    @Override
                    public Line open() {
                        return new Line() {
                            @Override
                            public void startBreak() {}

                            @Override
                            public void endBreak() {}

                            @Override
                            public void write(byte[] bytes) throws LineLostException {
                                synchronized (gate) {
                                    while (!freed[0]) {
                                        try {
                                            gate.wait();
                                        } catch (InterruptedException e) {
                                            throw new LineLostException("interrupted", e);
                                        }
                                    }
                                }
                                throw new LineLostException("closed");
                            }

                            @Override
                            public void close() {
                                synchronized (gate) {
                                    freed[0] = true;
                                    gate.notifyAll();
                                }
                            }
                        };
                    }
                };
        LineDriver held =
                new LineDriver(
                        stuck, DmxTiming.STEADY, now -> DmxPacket.ofSlots(slots(0)), told::add);
        Thread thread =
                new Thread(
                        () -> {
                            for (long now = 0; now < 20 * MS; now += 100 * US) {
                                held.doWork(now);
                            }
                        });
        thread.start();
        while (thread.getState() != Thread.State.WAITING) {
            Thread.onSpinWait();
        }
        held.closeIfStuck(500 * MS);
        assertFalse(freed[0]);
        held.closeIfStuck(1100 * MS);
        thread.join(10_000);
        assertFalse(thread.isAlive());
        assertTrue(told.get(0).says().contains("takes no more bytes"), told.toString());
    }
}
