package lookstep.server.plan.edit;

/** An edit that was not made, in words for whoever wanted it. Nothing was changed. */
public final class EditRefused extends Exception {
    private static final long serialVersionUID = 1;

    private final String what;
    private final String mend;

    /**
     * @param what what stands against it; names the place
     * @param mend what to do about it
     */
    public EditRefused(String what, String mend) {
        super(what + "; " + mend);
        this.what = what;
        this.mend = mend;
    }

    /** What stands against it; names the place. */
    public String what() {
        return what;
    }

    /** What to do about it. */
    public String mend() {
        return mend;
    }
}
