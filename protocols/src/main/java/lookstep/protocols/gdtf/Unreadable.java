package lookstep.protocols.gdtf;

/** Ends the reading of a file; becomes a {@link GdtfReading.Bad} and goes no further. */
final class Unreadable extends Exception {
    private static final long serialVersionUID = 1;

    private final int line;
    private final int column;
    private final String mend;

    Unreadable(String what, String mend) {
        this(0, 0, what, mend);
    }

    Unreadable(int line, int column, String what, String mend) {
        super(what);
        this.line = line;
        this.column = column;
        this.mend = mend;
    }

    GdtfReading.Bad reading() {
        return new GdtfReading.Bad(line, column, getMessage(), mend);
    }
}
