package lookstep.server.live;

/** A press that cannot be carried out as things are; the message says why, and what can be. */
public final class NotPossible extends Exception {
    private static final long serialVersionUID = 1;

    public NotPossible(String says) {
        super(says);
    }
}
