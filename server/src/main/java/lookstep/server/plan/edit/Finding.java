package lookstep.server.plan.edit;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** From paths as pages give them to keys and indices of the file as it is now. */
final class Finding {
    /**
     * How far a path leads.
     *
     * @param found keys and indices to what is there
     * @param missing the steps that lead nowhere yet; the first is a key
     */
    record Found(PlanPath found, PlanPath missing) {}

    private Finding() {}

    /**
     * Follows a path as far as it goes.
     *
     * @throws EditRefused if a step does not fit what is there; a key that is missing does
     */
    static Found follow(JsonNode root, PlanPath path) throws EditRefused {
        JsonNode at = root;
        PlanPath found = PlanPath.ROOT;
        List<Step> steps = path.steps();
        for (int i = 0; i < steps.size(); i++) {
            PlanPath walked = new PlanPath(steps.subList(0, i));
            Step step = steps.get(i);
            if (step instanceof Step.Key key) {
                if (!at.isObject() && !at.isNull()) {
                    throw new EditRefused(
                            walked.words()
                                    + (at.isArray() ? " is a list" : " is no group of keys")
                                    + ", so it has no '"
                                    + key.name()
                                    + "'",
                            "look at the plan as it is now");
                }
                if (!at.has(key.name())) {
                    return new Found(found, new PlanPath(steps.subList(i, steps.size())));
                }
                at = at.get(key.name());
                found = found.then(key);
            } else {
                int index = index(at, step, walked);
                at = at.get(index);
                found = found.then(index);
            }
        }
        return new Found(found, PlanPath.ROOT);
    }

    /** The path to what must be there. */
    static PlanPath there(JsonNode root, PlanPath path) throws EditRefused {
        Found found = follow(root, path);
        if (!found.missing().isRoot()) {
            throw new EditRefused(
                    path.words() + ": there is no '" + found.missing().steps().get(0).words() + "'",
                    "somebody may have renamed or removed it; look at the plan as it is now");
        }
        return found.found();
    }

    static int index(JsonNode list, Step step, PlanPath walked) throws EditRefused {
        if (!list.isArray()) {
            throw new EditRefused(
                    walked.words() + " is no list, so it has no " + step.words(),
                    "look at the plan as it is now");
        }
        if (step instanceof Step.Index index) {
            if (index.at() >= list.size()) {
                throw new EditRefused(
                        walked.words()
                                + " has no "
                                + index.words()
                                + ", it ends with "
                                + list.size(),
                        "look at the plan as it is now");
            }
            return index.at();
        }
        if (step instanceof Step.Choice choice) {
            return chosen(list, choice, walked)
                    .orElseThrow(
                            () ->
                                    new EditRefused(
                                            walked.words()
                                                    + " has no entry with the "
                                                    + choice.key()
                                                    + " '"
                                                    + choice.value()
                                                    + "'",
                                            "somebody may have renamed or removed it; look at the"
                                                    + " plan as it is now"));
        }
        throw new EditRefused(
                walked.words() + " is a list, so it has no '" + step.words() + "'",
                "choose an entry by its place or by its name");
    }

    private static Optional<Integer> chosen(JsonNode list, Step.Choice choice, PlanPath walked)
            throws EditRefused {
        List<Integer> fit = new ArrayList<>();
        for (int i = 0; i < list.size(); i++) {
            if (choice.fits(list.get(i))) {
                fit.add(i);
            }
        }
        if (fit.size() > 1) {
            throw new EditRefused(
                    walked.words()
                            + " has "
                            + fit.size()
                            + " entries with the "
                            + choice.key()
                            + " '"
                            + choice.value()
                            + "'",
                    "give them different ones in a text editor");
        }
        return fit.stream().findFirst();
    }
}
