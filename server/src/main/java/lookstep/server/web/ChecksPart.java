package lookstep.server.web;

import java.util.List;

/**
 * What is to be said of the plan.
 *
 * @param ready false while it is being worked out; what is there is of the plan before
 * @param wrong how many findings are wrong
 * @param look how many are worth a look
 * @param findings the most important first
 */
public record ChecksPart(boolean ready, int wrong, int look, List<FindingPart> findings) {
    /** Nothing worked out yet. */
    public static final ChecksPart NONE = new ChecksPart(false, 0, 0, List.of());

    /**
     * One thing about the plan.
     *
     * @param id for {@code /mend}
     * @param weight wrong, look or good
     * @param shot its id; empty if it is of no shot in particular
     * @param why the reason, with its numbers
     * @param mend what would mend it; empty if nothing that is known here
     * @param canMend whether {@code /mend} does it
     */
    public record FindingPart(
            String id,
            String kind,
            String weight,
            String shot,
            String says,
            String why,
            String mend,
            boolean canMend) {}
}
