package lookstep.server.plates;

/** What takes the frames: a camera that is released from here, or somebody behind it. */
public interface Shutter {
    /** Whether it lets itself be released from here now. */
    boolean canRelease();

    /** Releases the shutter. */
    void release();
}
