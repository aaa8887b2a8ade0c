package lookstep.protocols.gdtf;

/**
 * One part of a file that could not be taken as it is.
 *
 * @param line of description.xml, from 1; 0 if it is about the file as a whole
 * @param column of description.xml, from 1; 0 if it is about the file as a whole
 * @param what in plain words, with what was taken instead
 */
public record GdtfNote(int line, int column, String what) {
    /** One line: {@code description.xml:LINE:COLUMN: what}. */
    public String text() {
        return line == 0 ? what : "description.xml:" + line + ":" + column + ": " + what;
    }
}
