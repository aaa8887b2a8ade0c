package lookstep.protocols.wire;

/**
 * One open line to the lights (ANSI E1.11: 250 kbit/s, 8 data bits, 2 stop bits, no parity). It
 * moves bytes and the break; when to do so is its driver's business. One thread drives it; {@link
 * #close} may come from any thread and frees a write that is stuck.
 */
public interface Line extends AutoCloseable {
    /** Puts the line into the break (space) state. */
    void startBreak() throws LineLostException;

    /** Ends the break: the line goes to mark. */
    void endBreak() throws LineLostException;

    /**
     * Sends START code and slots. May return before the last bit has left the adapter, and blocks
     * while a live adapter does not drain.
     */
    void write(byte[] startCodeAndSlots) throws LineLostException;

    /** Waits for nothing, flushes nothing, frees a stuck write; closing twice is harmless. */
    @Override
    void close();
}
