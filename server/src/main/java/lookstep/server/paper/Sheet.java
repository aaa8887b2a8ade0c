package lookstep.server.paper;

import java.time.LocalDateTime;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import lookstep.server.plan.ShootPlan;

/**
 * What is to be printed.
 *
 * @param plan with all its places
 * @param order ids of the plan's shots in the order to be made
 * @param startsAtSeconds when each is estimated to begin, from the start of the window, by the
 *     shot's id; a shot that is not in it has no time
 * @param remarks findings of the plan's check, a sentence each; may be empty
 * @param size of the paper
 * @param planFile what the plan's file is called
 * @param planHash hexadecimal, of what the plan says; its first digits are printed
 * @param printedAt the local time that stands on each page
 */
public record Sheet(
        ShootPlan plan,
        List<String> order,
        Map<String, Double> startsAtSeconds,
        List<String> remarks,
        PaperSize size,
        String planFile,
        String planHash,
        LocalDateTime printedAt) {
    /**
     * Checks the order.
     *
     * @throws IllegalArgumentException if an id is not the plan's, or there twice
     */
    public Sheet {
        order = List.copyOf(order);
        startsAtSeconds = Map.copyOf(startsAtSeconds);
        remarks = List.copyOf(remarks);
        HashSet<String> seen = new HashSet<>();
        for (String id : order) {
            if (plan.shot(id).isEmpty()) {
                throw new IllegalArgumentException("the plan has no shot of the id '" + id + "'");
            }
            if (!seen.add(id)) {
                throw new IllegalArgumentException("the shot '" + id + "' is in the order twice");
            }
        }
    }

    /** Enough of the hash to tell one plan from another by eye. */
    String shortHash() {
        return planHash.substring(0, Math.min(10, planHash.length()));
    }
}
