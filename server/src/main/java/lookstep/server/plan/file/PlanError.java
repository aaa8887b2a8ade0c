package lookstep.server.plan.file;

import java.util.Comparator;

/**
 * One thing that is wrong with a plan file, or that is odd about it.
 *
 * @param line from 1; 0 when it is about the file as a whole
 * @param column from 1; 0 when it is about the file as a whole
 * @param what what is wrong; names the value
 * @param mend what to write instead
 */
public record PlanError(int line, int column, String what, String mend) {
    static final Comparator<PlanError> BY_PLACE =
            Comparator.comparingInt(PlanError::line)
                    .thenComparingInt(PlanError::column)
                    .thenComparing(PlanError::what);

    /** One line for a terminal: {@code FILE:LINE:COLUMN: what; mend}. */
    public String text(String file) {
        String place = line == 0 ? file : file + ":" + line + ":" + column;
        return place + ": " + what + "; " + mend;
    }
}
