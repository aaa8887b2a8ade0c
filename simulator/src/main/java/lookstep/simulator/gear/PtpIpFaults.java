package lookstep.simulator.gear;

import java.io.IOException;
import java.io.InterruptedIOException;
import java.util.Optional;

/** What is wrong with a camera at the moment. Any thread. */
final class PtpIpFaults {
    private boolean silent;
    private boolean taken;
    private int busy;
    private Optional<Fault.HalfFile> half = Optional.empty();
    private Optional<Fault.SlowWriter> slow = Optional.empty();

    synchronized void set(Fault.OfCamera fault) {
        if (fault instanceof Fault.CameraSilent) {
            silent = true;
        } else if (fault instanceof Fault.CameraTaken) {
            taken = true;
        } else if (fault instanceof Fault.CameraBusy more) {
            busy = more.requests();
        } else if (fault instanceof Fault.HalfFile cut) {
            half = Optional.of(cut);
        } else if (fault instanceof Fault.SlowWriter pieces) {
            slow = Optional.of(pieces);
        } else {
            throw new IllegalArgumentException("a camera on the network cannot do this: " + fault);
        }
    }

    /** True if it was silent: who waits then finds the connections gone. */
    synchronized boolean mend() {
        boolean woke = silent;
        silent = false;
        taken = false;
        busy = 0;
        half = Optional.empty();
        slow = Optional.empty();
        notifyAll();
        return woke;
    }

    synchronized boolean silent() {
        return silent;
    }

    synchronized void waitWhileSilent() throws IOException {
        boolean slept = silent;
        try {
            while (silent) {
                wait();
            }
        } catch (InterruptedException stopped) {
            Thread.currentThread().interrupt();
            throw new InterruptedIOException("stopped while asleep");
        }
        if (slept) {
            throw new IOException("woken, and knows of no connection");
        }
    }

    synchronized boolean taken() {
        return taken;
    }

    /** Counts one request down. */
    synchronized boolean busyNow() {
        if (busy == 0) {
            return false;
        }
        busy--;
        return true;
    }

    synchronized Optional<Fault.SlowWriter> slow() {
        return slow;
    }

    /**
     * Whether the connection breaks within these octets of a file, and where. It does so once.
     *
     * @param fileOctets of the whole file
     */
    synchronized Optional<Integer> cutWithin(int offset, int length, int fileOctets) {
        if (half.isEmpty()) {
            return Optional.empty();
        }
        int at = (int) (half.get().part() * fileOctets);
        if (at < offset || at >= offset + length) {
            return Optional.empty();
        }
        half = Optional.empty();
        return Optional.of(at - offset);
    }
}
