package lookstep.server.plan.edit;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Takes one change out of a text that may have been changed elsewhere since: exactly as it was
 * where lines allow it, with comments; else value by value.
 */
final class TakingBack {
    private TakingBack() {}

    /**
     * The text without the change.
     *
     * @param now the text as it is
     * @param changed the text after the change that goes
     * @param before the text before it
     * @throws EditRefused if what was changed was changed again elsewhere, or cannot be told apart
     */
    static PlanDocument of(PlanDocument now, String changed, String before) throws EditRefused {
        if (now.text().equals(changed)) {
            return PlanDocument.of(before);
        }
        JsonNode from = PlanDocument.of(changed).json();
        JsonNode to = PlanDocument.of(before).json();
        List<Difference> ours = Differences.between(from, to);
        List<Difference> theirs = Differences.between(from, now.json());
        for (Difference mine : ours) {
            for (Difference other : theirs) {
                if (mine.touches(other)) {
                    throw new EditRefused(
                            "this cannot be taken back: since then " + other.words(),
                            "change it by hand");
                }
            }
        }
        Optional<String> joined = LineMerge.join(changed, before, now.text());
        if (joined.isPresent()) {
            Optional<PlanDocument> exact = exact(joined.get(), to, theirs);
            if (exact.isPresent()) {
                return exact.get();
            }
        }
        return byValue(now, ours);
    }

    /** Must differ from the text before the change in what others did, and in nothing else. */
    private static Optional<PlanDocument> exact(
            String joined, JsonNode before, List<Difference> theirs) {
        try {
            PlanDocument out = PlanDocument.of(joined);
            List<String> left = words(Differences.between(before, out.json()));
            return left.equals(words(theirs)) ? Optional.of(out) : Optional.empty();
        } catch (EditRefused e) {
            return Optional.empty();
        }
    }

    private static List<String> words(List<Difference> differences) {
        return differences.stream().map(Difference::words).sorted().toList();
    }

    private static PlanDocument byValue(PlanDocument now, List<Difference> ours)
            throws EditRefused {
        List<Edit> edits = new ArrayList<>();
        for (Difference one : ours) {
            boolean entry = one.path().isRoot() || !(one.path().last() instanceof Step.Key);
            if (one.kind() == Difference.Kind.ORDER
                    || (one.kind() == Difference.Kind.NEW && entry)) {
                throw new EditRefused(
                        "this cannot be taken back: the lines around "
                                + one.path().words()
                                + " were changed since",
                        "change it by hand");
            }
            edits.add(
                    one.kind() == Difference.Kind.GONE
                            ? new Edit.Remove(one.path(), one.was())
                            : new Edit.Set(one.path(), one.was(), one.now()));
        }
        PlanDocument out = now;
        for (Edit edit : edits) {
            out = out.apply(edit);
        }
        return out;
    }
}
