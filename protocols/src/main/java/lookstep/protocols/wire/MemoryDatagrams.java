package lookstep.protocols.wire;

import java.net.InetSocketAddress;
import java.util.HashSet;
import java.util.Set;

/**
 * Datagrams in memory, for tests. What is sent is handed to the far end before the call returns, on
 * the sender's thread. The interface can be pulled and put back, its buffer can be full, and
 * destinations can refuse; these may be called from any thread.
 */
public final class MemoryDatagrams implements DatagramPort {
    /** Who listens to all that is sent; called on the sender's thread and expected to be quick. */
    @FunctionalInterface
    public interface FarEnd {
        /** A datagram came; the array is the far end's to keep. */
        void received(byte[] octets, InetSocketAddress to);
    }

    private final String name;
    private final FarEnd farEnd;
    private final Set<InetSocketAddress> refusing = new HashSet<>();
    private boolean plugged = true;
    private boolean full;
    private Open open;

    /**
     * @param name what to call it on the pages
     * @param farEnd who listens
     */
    public MemoryDatagrams(String name, FarEnd farEnd) {
        this.name = name;
        this.farEnd = farEnd;
    }

    @Override
    public String name() {
        return name;
    }

    @Override
    public synchronized Datagrams open() throws LineLostException {
        requirePlugged();
        open = new Open();
        return open;
    }

    /** Pulls the interface: what is open is lost, and nothing can be opened. */
    public synchronized void unplug() {
        plugged = false;
        open = null;
    }

    /** Puts the interface back. */
    public synchronized void plug() {
        plugged = true;
    }

    /** While full, every datagram is let go. */
    public synchronized void setFull(boolean full) {
        this.full = full;
    }

    /** From now on nobody listens there. */
    public synchronized void refuse(InetSocketAddress destination) {
        refusing.add(destination);
    }

    /** From now on somebody listens there again. */
    public synchronized void accept(InetSocketAddress destination) {
        refusing.remove(destination);
    }

    private void requirePlugged() throws LineLostException {
        if (!plugged) {
            throw new LineLostException(
                    name + ": no network interface of this name or address is here. Plug it in.");
        }
    }

    private final class Open implements Datagrams {
        @Override
        public Sending send(byte[] octets, InetSocketAddress to) throws LineLostException {
            synchronized (MemoryDatagrams.this) {
                requireUp();
                if (refusing.contains(to)) {
                    return Sending.Refused.nobodyListens(to);
                }
                if (full) {
                    return Sending.DROPPED;
                }
                farEnd.received(octets.clone(), to);
                return Sending.SENT;
            }
        }

        @Override
        public void requireUp() throws LineLostException {
            synchronized (MemoryDatagrams.this) {
                requirePlugged();
                if (open != this) {
                    throw new LineLostException(name + ": the way into the network was closed.");
                }
            }
        }

        @Override
        public void close() {
            synchronized (MemoryDatagrams.this) {
                if (open == this) {
                    open = null;
                }
            }
        }
    }
}
