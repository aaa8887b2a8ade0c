package lookstep.server.plan.file;

import java.util.Comparator;

/**
 * One thing that is wrong with a file that was written by hand, or that is odd about it.
 *
 * @param line from 1; 0 when it is about the file as a whole
 * @param column from 1; 0 when it is about the file as a whole
 * @param what what is wrong; names the value
 * @param mend what to write instead
 */
public record PlanError(int line, int column, String what, String mend) {
    /** Those of one place stay in the order in which they were found. */
    static final Comparator<PlanError> BY_PLACE =
            Comparator.comparingInt(PlanError::line).thenComparingInt(PlanError::column);

    /** One line for a terminal: {@code FILE:LINE:COLUMN: what; mend}. */
    public String text(String file) {
        return place(file) + ": " + what + "; " + mend;
    }

    String place(String file) {
        return line == 0 ? file : file + ":" + line + ":" + column;
    }
}
