package lookstep.server.output;

import java.util.Optional;
import lookstep.server.look.Fade;
import lookstep.server.look.RawSlots;
import lookstep.server.look.RigLevels;

/**
 * Plays what is wanted now, from wherever the lights are: snap or fade, each moment one consistent
 * state. The wish may come from any thread, and any number of outputs may ask for the moment.
 *
 * <p>However fast the key is hit, no light makes more than three opposing changes in any second
 * (WCAG 2.2, 2.3.1: no more than three flashes in any one second): between two beginnings every
 * light only rises or only falls ({@link Fade}), and a change that would turn a light for the
 * fourth time waits. It is the newest wish that is waiting, and it goes out as soon as it may.
 */
public final class LookPlayer {
    /**
     * What goes out at one moment.
     *
     * @param levels of every light
     * @param raw slots as they are, in place of those of the levels, for the one universe that is
     *     being tested
     */
    public record Moment(RigLevels levels, Optional<RawSlots> raw) {}

    private record Wish(Moment moment, long fadeNanos) {}

    private final Fade fade;
    private final long periodNanos;
    private final Turns turns;

    private Wish wish;
    private Wish playing;
    private Moment from;
    private Moment now;
    private long began;
    private boolean everBegan;
    private long latest;
    private boolean asked;
    private boolean flashingAllowed;

    /**
     * @param start where the lights are to be at once
     * @param fade how this rig goes from one state to another
     * @param periodNanos packet to packet: the first packet of a fade is already one period into it
     */
    public LookPlayer(RigLevels start, Fade fade, long periodNanos) {
        this.fade = fade;
        this.periodNanos = periodNanos;
        turns = new Turns(fade.candela(), start);
        now = new Moment(start, Optional.empty());
        from = now;
        wish = new Wish(now, 0);
        playing = wish;
    }

    /** From now on, this. The newest wish counts. */
    public void go(RigLevels levels, double fadeSeconds) {
        wish(new Wish(new Moment(levels, Optional.empty()), Math.round(fadeSeconds * 1e9)));
    }

    /**
     * From now on these slots, at once.
     *
     * @param levels what the lights make of them
     */
    public void go(RawSlots slots, RigLevels levels) {
        wish(new Wish(new Moment(levels, Optional.of(slots)), 0));
    }

    private synchronized void wish(Wish next) {
        wish = next;
    }

    /** Lifts the limit on opposing changes, or puts it back. */
    public synchronized void allowFlashing(boolean allowed) {
        flashingAllowed = allowed;
    }

    /**
     * A wish is done when it is this one that plays; another with the same levels is a new wish.
     */
    @SuppressWarnings("ReferenceEquality")
    private boolean playsWish() {
        return wish == playing;
    }

    /**
     * What is to go out at {@code nowNanos} on the clock of {@link System#nanoTime}. All that ask
     * for one instant get one moment, and nobody gets one from before what has gone out already.
     */
    public synchronized Moment at(long nowNanos) {
        if (asked && nowNanos - latest <= 0) {
            return now;
        }
        asked = true;
        latest = nowNanos;
        if (!playsWish() && may(wish, nowNanos)) {
            from = now;
            playing = wish;
            began = nowNanos;
            everBegan = true;
        }
        now = moment(nowNanos);
        turns.saw(now.levels(), nowNanos);
        return now;
    }

    private boolean may(Wish next, long nowNanos) {
        return flashingAllowed || turns.allow(next.moment().levels(), nowNanos);
    }

    private Moment moment(long nowNanos) {
        long whole = playing.fadeNanos();
        double part = whole <= 0 ? 1 : (double) (nowNanos - began + periodNanos) / whole;
        if (part >= 1 || !everBegan) {
            return playing.moment();
        }
        return new Moment(
                fade.between(from.levels(), playing.moment().levels(), part), Optional.empty());
    }

    /** Whether what was wished last is there, whole. */
    public synchronized boolean arrived(long nowNanos) {
        return playsWish() && nowNanos - began + periodNanos >= playing.fadeNanos();
    }
}
