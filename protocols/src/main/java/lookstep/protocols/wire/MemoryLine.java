package lookstep.protocols.wire;

/**
 * A line in memory, for rehearsals on a machine without pseudo-terminals and for tests. What is
 * sent is handed to the far end before the call returns, on the sender's thread. The adapter can be
 * pulled, put back, made to get stuck and made to take only part of what it is given; these may be
 * called from any thread.
 */
public final class MemoryLine implements LinePort {
    /** Who listens at the other end; called on the sender's thread and expected to be quick. */
    public interface FarEnd {
        /** The line went into the break state. */
        void breakStarted();

        /** The line went back to mark. */
        void breakEnded();

        /** Octets came, in order; the array is the far end's to keep. */
        void received(byte[] bytes);
    }

    private final Object lock = new Object();
    private final String name;
    private final FarEnd farEnd;
    private boolean plugged = true;
    private boolean stuck;
    private boolean shortWrites;
    private OpenLine open;

    /**
     * @param name what to call it on the pages
     * @param farEnd who listens
     */
    public MemoryLine(String name, FarEnd farEnd) {
        this.name = name;
        this.farEnd = farEnd;
    }

    @Override
    public String name() {
        return name;
    }

    /** A line that is already open is lost to the one who opened it before. */
    @Override
    public Line open() throws LineLostException {
        synchronized (lock) {
            if (!plugged) {
                throw new LineLostException(
                        name + ": no adapter is there. Plug it in, or choose another line.");
            }
            if (open != null) {
                open.lose();
            }
            open = new OpenLine();
            return open;
        }
    }

    /** Pulls the adapter: the open line is lost, and none can be opened. */
    public void unplug() {
        synchronized (lock) {
            plugged = false;
            if (open != null) {
                open.lose();
                open = null;
            }
        }
    }

    /** Puts the adapter back. */
    public void plug() {
        synchronized (lock) {
            plugged = true;
        }
    }

    /** While stuck, a write does not return unless its line is closed or lost. */
    public void setStuck(boolean stuck) {
        synchronized (lock) {
            this.stuck = stuck;
            lock.notifyAll();
        }
    }

    /** While set, a write delivers half of what it is given and the line is lost. */
    public void setShortWrites(boolean shortWrites) {
        synchronized (lock) {
            this.shortWrites = shortWrites;
        }
    }

    private final class OpenLine implements Line {
        private boolean gone;
        private boolean breaking;

        @Override
        public void startBreak() throws LineLostException {
            synchronized (lock) {
                requireThere();
                if (!breaking) {
                    breaking = true;
                    farEnd.breakStarted();
                }
            }
        }

        @Override
        public void endBreak() throws LineLostException {
            synchronized (lock) {
                requireThere();
                if (breaking) {
                    breaking = false;
                    farEnd.breakEnded();
                }
            }
        }

        @Override
        public void write(byte[] startCodeAndSlots) throws LineLostException {
            synchronized (lock) {
                requireThere();
                awaitDrain();
                requireThere();
                int taken = startCodeAndSlots.length;
                if (shortWrites) {
                    taken /= 2;
                }
                byte[] sent = new byte[taken];
                System.arraycopy(startCodeAndSlots, 0, sent, 0, taken);
                farEnd.received(sent);
                if (taken < startCodeAndSlots.length) {
                    lose();
                    throw new LineLostException(
                            "%s: the adapter took %d of %d octets. Pull it and put it back in."
                                    .formatted(name, taken, startCodeAndSlots.length));
                }
            }
        }

        @Override
        public void close() {
            synchronized (lock) {
                lose();
            }
        }

        private void lose() {
            gone = true;
            // a tty drops its break when it is closed
            if (breaking) {
                breaking = false;
                farEnd.breakEnded();
            }
            if (open == this) {
                open = null;
            }
            lock.notifyAll();
        }

        private void requireThere() throws LineLostException {
            if (gone) {
                throw new LineLostException(
                        name + ": the line is closed or the adapter is gone. Plug it back in.");
            }
        }

        private void awaitDrain() throws LineLostException {
            try {
                while (stuck && !gone) {
                    lock.wait();
                }
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                throw new LineLostException(name + ": interrupted while the adapter was stuck", e);
            }
        }
    }
}
