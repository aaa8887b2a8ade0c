package lookstep.server.live;

import java.util.ArrayList;
import java.util.List;

/**
 * The clock of the window, by the wall so that it goes on while the program is down.
 *
 * @param runMillis how long it had run when it was last paused or started
 * @param startedEpochMillis when it was last started; 0 before the first start
 * @param running whether it runs
 * @param pauses when it stood after it had run, in the order of time; one that goes on ends at 0
 */
public record Clock(long runMillis, long startedEpochMillis, boolean running, List<Pause> pauses) {
    static final Clock NEW = new Clock(0, 0, false, List.of());

    /**
     * A time when the window did not pass.
     *
     * @param untilEpochMillis 0 while it goes on
     */
    public record Pause(long sinceEpochMillis, long untilEpochMillis) {}

    public Clock {
        pauses = List.copyOf(pauses);
    }

    /** How much of the time between two moments it stood. */
    public long pausedMillis(long from, long to) {
        long sum = 0;
        for (Pause pause : pauses) {
            long until = pause.untilEpochMillis() == 0 ? to : pause.untilEpochMillis();
            sum += Math.max(0, Math.min(to, until) - Math.max(from, pause.sinceEpochMillis()));
        }
        return sum;
    }

    /** How long the window has been open. */
    public long elapsedMillis(long nowEpochMillis) {
        return running ? runMillis + Math.max(0, nowEpochMillis - startedEpochMillis) : runMillis;
    }

    /** True before the first start. */
    public boolean fresh() {
        return startedEpochMillis == 0;
    }

    Clock start(long nowEpochMillis) {
        if (running) {
            return this;
        }
        List<Pause> ended =
                pauses.stream()
                        .map(
                                p ->
                                        p.untilEpochMillis() == 0
                                                ? new Pause(p.sinceEpochMillis(), nowEpochMillis)
                                                : p)
                        .toList();
        return new Clock(runMillis, nowEpochMillis, true, ended);
    }

    Clock pause(long nowEpochMillis) {
        if (!running) {
            return this;
        }
        List<Pause> more = new ArrayList<>(pauses);
        more.add(new Pause(nowEpochMillis, 0));
        return new Clock(elapsedMillis(nowEpochMillis), startedEpochMillis, false, more);
    }
}
