package lookstep.simulator.gear;

/** One file of a release. */
public final class CameraFile {
    private final String ending;
    private final byte[] bytes;

    /**
     * Keeps the array, which is not to be changed from then on.
     *
     * @param ending of its name, without the dot, such as {@code JPG}
     * @param bytes its content
     */
    public CameraFile(String ending, byte[] bytes) {
        this.ending = ending;
        this.bytes = bytes;
    }

    /** Of its name, without the dot. */
    public String ending() {
        return ending;
    }

    /** Its content; shared, so not to be changed. */
    public byte[] bytes() {
        return bytes;
    }
}
