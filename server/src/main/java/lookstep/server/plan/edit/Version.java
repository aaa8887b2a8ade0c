package lookstep.server.plan.edit;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.file.PlanError;

/**
 * The plan at one moment; always one that reads well.
 *
 * @param document its text and tree
 * @param hash SHA-256 of the file's bytes, in hex
 * @param plan what it means
 * @param warnings what is odd about it, by place
 * @param revision 1 at first, one more with every change, made here or outside
 */
public record Version(
        PlanDocument document,
        String hash,
        ShootPlan plan,
        List<PlanError> warnings,
        long revision) {
    public Version {
        warnings = List.copyOf(warnings);
    }

    /** The file's text. */
    public String text() {
        return document.text();
    }

    /** The tree for pages. */
    public JsonNode json() {
        return document.toJson();
    }
}
