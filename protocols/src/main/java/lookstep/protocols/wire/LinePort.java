package lookstep.protocols.wire;

/** A place where a line can be opened, again after each loss. */
public interface LinePort {
    /** What to call it on the pages, such as {@code /dev/ttyUSB0}. */
    String name();

    /**
     * Opens the line anew.
     *
     * @throws LineLostException if nothing is there, or it cannot be had; the message says so in
     *     plain words
     */
    Line open() throws LineLostException;
}
