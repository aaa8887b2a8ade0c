package lookstep.server.keeping;

/** How far the copy of one original has come. */
public sealed interface CopyState {
    /** Its turn has not come yet. */
    record Waiting() implements CopyState {}

    /**
     * It is being copied or compared.
     *
     * @param part how far, 0 to 1
     */
    record Copying(double part) implements CopyState {}

    /**
     * Two files with the same bytes are there.
     *
     * @param sha256 of both, 64 hexadecimal digits in lower case
     */
    record Safe(String sha256) implements CopyState {}

    /**
     * It did not come about yet, and is tried again.
     *
     * @param words what is wrong, and what can be done
     * @param againAtNanos when, on the clock of {@link SafeKeeping#doWork}
     */
    record Failed(String words, long againAtNanos) implements CopyState {}
}
