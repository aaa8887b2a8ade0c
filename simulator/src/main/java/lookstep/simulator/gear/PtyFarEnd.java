package lookstep.simulator.gear;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.Deque;
import lookstep.protocols.dmx.DmxTiming;

/**
 * The lights' end of a pair of device nodes. A pseudo-terminal carries no break and does not pace
 * its bytes, so this end does what the wire would: it lets a byte through each 44 us (ANSI E1.11:
 * 11 bits of 4 us, so that 513 slots take 22.57 ms), and it takes a rest in what arrives as the end
 * of a packet. A loop with one step; it neither sleeps nor waits. If the node goes, it looks for it
 * until it is back.
 */
public final class PtyFarEnd implements AutoCloseable {
    /** A rest this long parts two packets; far above the jitter inside one burst of bytes. */
    static final long REST_NANOS = 5_000_000;

    /** How often to look for a node that is not there. */
    static final long LOOK_NANOS = 100_000_000;

    private final Path node;
    private final LightListener lights;
    private final byte[] piece = new byte[4096];
    private final Deque<Long> restsAt = new ArrayDeque<>();
    private NodeReader reader;
    private long nextLookNanos;
    private boolean started;
    private long lastWorkNanos;
    private long wireFreeNanos;
    private long arrivedBytes;
    private long arrivedNanos;
    private long passedBytes;
    private boolean inStep;
    private volatile boolean connected;
    private volatile boolean stuck;

    /**
     * Opens nothing until the first {@link #doWork}.
     *
     * @param node the far device node, or a link to it
     * @param lights gets the bytes at the pace of the wire
     */
    public PtyFarEnd(Path node, LightListener lights) {
        this.node = node;
        this.lights = lights;
    }

    /**
     * One step: lets through what the wire would have carried by now.
     *
     * @param nowNanos a steady clock; call again within 2 ms to be in step with packets
     * @return bytes let through; 0 if there was nothing to do
     */
    public int doWork(long nowNanos) {
        if (reader == null && !open(nowNanos)) {
            return 0;
        }
        if (stuck) {
            wireFreeNanos = nowNanos;
            return 0;
        }
        try {
            return pass(nowNanos);
        } catch (IOException gone) {
            letGo();
            nextLookNanos = nowNanos + LOOK_NANOS;
            return 0;
        }
    }

    /** True while the node is open. Any thread. */
    public boolean connected() {
        return connected;
    }

    /** From now on takes no byte, until {@link #mend}. Any thread. */
    public void misbehave(Fault.OfLine fault) {
        if (!(fault instanceof Fault.Stuck)) {
            throw new IllegalArgumentException("the far end of a node cannot do this: " + fault);
        }
        stuck = true;
    }

    /** Takes bytes again. Any thread. */
    public void mend() {
        stuck = false;
    }

    /** Lets go of the node. On the thread of {@link #doWork}, or after its last step. */
    @Override
    public void close() {
        letGo();
    }

    private boolean open(long nowNanos) {
        if (started && nowNanos - nextLookNanos < 0) {
            return false;
        }
        started = true;
        try {
            reader = NodeReader.open(node);
        } catch (IOException notThere) {
            nextLookNanos = nowNanos + LOOK_NANOS;
            return false;
        }
        connected = true;
        lastWorkNanos = nowNanos;
        wireFreeNanos = nowNanos;
        arrivedNanos = nowNanos;
        arrivedBytes = 0;
        passedBytes = 0;
        restsAt.clear();
        inStep = false;
        return true;
    }

    private int pass(long nowNanos) throws IOException {
        int waiting = reader.available();
        if (passedBytes + waiting > arrivedBytes) {
            // Only a rest that was already seen at the step before is sure to be one.
            if (lastWorkNanos - arrivedNanos >= REST_NANOS) {
                restsAt.add(arrivedBytes);
            }
            arrivedBytes = passedBytes + waiting;
            arrivedNanos = nowNanos;
        }
        lastWorkNanos = nowNanos;
        if (waiting == 0) {
            wireFreeNanos = nowNanos;
            return 0;
        }
        long carried = (nowNanos - wireFreeNanos) / DmxTiming.SLOT_NANOS;
        int count = (int) Math.min(Math.min(carried, waiting), piece.length);
        if (count <= 0) {
            return 0;
        }
        int got = reader.read(piece, count);
        if (got < 0) {
            throw new IOException("the node has gone");
        }
        wireFreeNanos += got * DmxTiming.SLOT_NANOS;
        hand(got, nowNanos);
        return got;
    }

    /** Hands bytes on, parted where there was a rest; before the first rest nothing is in step. */
    private void hand(int count, long nowNanos) {
        int from = 0;
        while (!restsAt.isEmpty() && restsAt.peek() < passedBytes + count) {
            int rest = (int) (restsAt.remove() - passedBytes);
            handRun(from, rest, nowNanos);
            lights.lineQuiet(nowNanos);
            inStep = true;
            from = rest;
        }
        handRun(from, count, nowNanos);
        passedBytes += count;
    }

    private void handRun(int from, int to, long nowNanos) {
        if (inStep && to > from) {
            lights.bytes(piece, from, to, nowNanos);
        }
    }

    private void letGo() {
        if (reader != null) {
            reader.close();
            reader = null;
        }
        connected = false;
    }
}
