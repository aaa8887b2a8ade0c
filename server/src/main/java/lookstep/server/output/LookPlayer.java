package lookstep.server.output;

import java.util.function.Function;
import lookstep.protocols.dmx.DmxPacket;
import lookstep.server.look.Fade;
import lookstep.server.look.RigLevels;

/**
 * Plays the look that is wanted now, from wherever the lights are: snap or fade, each packet one
 * consistent state. The wish may come from any thread; the packets are taken by the line's thread
 * alone.
 *
 * <p>However fast the key is hit, a change begins no sooner than a third of a second after the one
 * before: between two beginnings every light only rises or only falls ({@link Fade}), so no light
 * makes more than three opposing changes in any second (WCAG 2.2, 2.3.1: no more than three flashes
 * in any one second).
 */
public final class LookPlayer implements PacketSource {
    /** A little over a third of a second, so that four beginnings never fall into one second. */
    static final long LEAST_BETWEEN_CHANGES_NANOS = 334_000_000;

    private record Wish(RigLevels levels, long fadeNanos) {}

    private final Fade fade;
    private final Function<RigLevels, DmxPacket> packets;
    private final long periodNanos;
    private volatile Wish wish;

    private Wish playing;
    private RigLevels from;
    private RigLevels now;
    private long began;
    private boolean everBegan;

    /**
     * @param start where the lights are to be at once
     * @param fade how this rig goes from one state to another
     * @param packets turns levels into the packet of this line's universe
     * @param periodNanos packet to packet: the first packet of a fade is already one period into it
     */
    public LookPlayer(
            RigLevels start, Fade fade, Function<RigLevels, DmxPacket> packets, long periodNanos) {
        this.fade = fade;
        this.packets = packets;
        this.periodNanos = periodNanos;
        wish = new Wish(start, 0);
        playing = wish;
        from = start;
        now = start;
    }

    /** From now on, this. The newest wish counts. */
    public void go(RigLevels levels, double fadeSeconds) {
        wish = new Wish(levels, Math.round(fadeSeconds * 1e9));
    }

    @Override
    public DmxPacket packet(long nowNanos) {
        Wish wanted = wish;
        if (!wanted.equals(playing)
                && (!everBegan || nowNanos - began >= LEAST_BETWEEN_CHANGES_NANOS)) {
            from = now;
            playing = wanted;
            began = nowNanos;
            everBegan = true;
        }
        now = at(nowNanos);
        return packets.apply(now);
    }

    private RigLevels at(long nowNanos) {
        long whole = playing.fadeNanos();
        double part = whole <= 0 ? 1 : (double) (nowNanos - began + periodNanos) / whole;
        return fade.between(from, playing.levels(), everBegan ? part : 1);
    }
}
