package lookstep.server.output;

import java.util.function.Consumer;
import lookstep.protocols.dmx.DmxPacket;
import lookstep.protocols.dmx.DmxTiming;
import lookstep.protocols.wire.Line;
import lookstep.protocols.wire.LineLostException;
import lookstep.protocols.wire.LinePort;

/**
 * Keeps one line refreshed (ANSI E1.11): break, mark after break, START code and slots, again and
 * again at a steady period, also when nothing changes. A line that is lost is opened again until it
 * is back; what it carries is the source's, so nothing is forgotten.
 *
 * <p>A loop object: {@link #doWork} does one step and says when it wants the next. Break and mark
 * are counted from the moment the request to the adapter has returned, so on the wire they are
 * never shorter than asked for.
 */
public final class LineDriver implements AutoCloseable {
    /**
     * How long the bytes may lag behind the call that wrote them, on a USB adapter (common
     * practice: 1 ms frames).
     */
    private static final long ADAPTER_LAG_NANOS = 2_000_000;

    private static final long REOPEN_NANOS = 500_000_000;
    private static final long STUCK_NANOS = 1_000_000_000;

    private enum Step {
        OPEN,
        REST,
        BREAK_BEGUN,
        BREAK,
        MARK_BEGUN,
        MARK,
        WRITTEN
    }

    private final LinePort port;
    private final DmxTiming timing;
    private final PacketSource source;
    private final Consumer<LineState> told;
    private final Periods periods = new Periods();

    private Step step = Step.OPEN;
    private LineState said;
    private long due;
    private long plannedBreak;
    private volatile long drained = System.nanoTime();
    private volatile Line line;
    private volatile boolean writing;
    private volatile boolean stuck;
    private volatile long writingSince;

    /**
     * @param told is called on the line's thread, once for each change
     */
    public LineDriver(
            LinePort port, DmxTiming timing, PacketSource source, Consumer<LineState> told) {
        this.port = port;
        this.timing = timing;
        this.source = source;
        this.told = told;
    }

    /**
     * Does what is due; returns the time on the same clock at which it wants to be called again.
     */
    public long doWork(long nowNanos) {
        if (due - nowNanos > 0) {
            return due;
        }
        try {
            due = advance(nowNanos);
        } catch (LineLostException lost) {
            shut();
            step = Step.OPEN;
            due = nowNanos + REOPEN_NANOS;
            say(new LineState(false, stuck ? stuckWords() : lost.getMessage()));
            stuck = false;
        } catch (RuntimeException fault) {
            // Not foreseen; but the lights must come back all the same.
            shut();
            step = Step.OPEN;
            due = nowNanos + REOPEN_NANOS;
            say(new LineState(false, port.name() + ": " + fault + "; opening it again"));
            throw fault;
        }
        return due;
    }

    private long advance(long now) throws LineLostException {
        switch (step) {
            case OPEN -> {
                line = port.open();
                periods.restart();
                plannedBreak = now;
                step = Step.REST;
                return now;
            }
            case REST -> {
                periods.broke(now);
                line.startBreak();
                step = Step.BREAK_BEGUN;
                return now;
            }
            case BREAK_BEGUN -> {
                step = Step.BREAK;
                return now + timing.breakNanos();
            }
            case BREAK -> {
                line.endBreak();
                step = Step.MARK_BEGUN;
                return now;
            }
            case MARK_BEGUN -> {
                step = Step.MARK;
                return now + timing.markAfterBreakNanos();
            }
            case MARK -> {
                byte[] bytes = source.packet(now).bytes();
                writingSince = now;
                writing = true;
                try {
                    line.write(bytes);
                } finally {
                    writing = false;
                }
                say(new LineState(true, upWords()));
                step = Step.WRITTEN;
                return now;
            }
            case WRITTEN -> {
                step = Step.REST;
                return nextBreak(now);
            }
        }
        throw new AssertionError(step);
    }

    /**
     * On the beat, but never before the last slot can have left the adapter; a beat that was missed
     * is let go.
     */
    private long nextBreak(long writtenAt) {
        drained = writtenAt + DmxTiming.wireNanos(DmxPacket.SLOTS) + ADAPTER_LAG_NANOS;
        plannedBreak += timing.periodNanos();
        if (plannedBreak - drained < 0) {
            plannedBreak = drained;
        }
        return plannedBreak;
    }

    /**
     * The watchdog, for another thread: a write that has not returned for a second is freed by
     * closing the line.
     */
    public void closeIfStuck(long nowNanos) {
        Line open = line;
        if (writing && open != null && nowNanos - writingSince > STUCK_NANOS) {
            stuck = true;
            open.close();
        }
    }

    /** Break to break, as it really went. */
    public Periods periods() {
        return periods;
    }

    /** By when the last slot that was written has left the adapter. */
    public long drainedNanos() {
        return drained;
    }

    /** Leaves the line in mark and closes it; call it after the thread that drives has stopped. */
    @Override
    public void close() {
        Line open = line;
        if (open != null) {
            try {
                open.endBreak();
            } catch (LineLostException gone) {
                // then there is no break to end
            }
        }
        shut();
    }

    private void shut() {
        Line open = line;
        line = null;
        if (open != null) {
            open.close();
        }
    }

    private void say(LineState state) {
        if (!state.equals(said)) {
            said = state;
            told.accept(state);
        }
    }

    private String upWords() {
        return "%s, a packet every %d ms"
                .formatted(port.name(), Math.round(timing.periodNanos() / 1e6));
    }

    private String stuckWords() {
        return "%s takes no more bytes: pull the adapter and put it back, output resumes by itself"
                .formatted(port.name());
    }
}
