package lookstep.protocols.image;

/** Whether all of a picture file is there. */
public sealed interface Wholeness {
    /**
     * All is there.
     *
     * @param length octets to the end of the last picture in it; the file may be longer
     */
    record Whole(long length) implements Wholeness {}

    /**
     * More must come.
     *
     * @param why what is missing, in plain words
     */
    record Partial(String why) implements Wholeness {}

    /**
     * Not a file of the kind that was asked for, or one that is broken: waiting will not help.
     *
     * @param why what is wrong, in plain words
     */
    record Foreign(String why) implements Wholeness {}
}
