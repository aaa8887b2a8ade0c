package lookstep.server.plan.edit;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.lowlevel.Compose;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.nodes.NodeTuple;
import org.snakeyaml.engine.v2.nodes.ScalarNode;
import org.snakeyaml.engine.v2.nodes.SequenceNode;

/** Which lines an edit may touch, by the places that the other parser gives. */
final class Touched {
    private static final LoadSettings SETTINGS =
            LoadSettings.builder().setBufferSize(1_000_000).build();

    private Touched() {}

    /** All lines that are not of the edited value, nor next to it, must be the same bytes. */
    static void assertRestStays(String before, String after, PlanPath path, String what) {
        if (before.equals(after)) {
            return;
        }
        List<String> old = List.of(before.split("(?<=\n)", -1));
        List<String> now = List.of(after.split("(?<=\n)", -1));
        int head = 0;
        while (head < Math.min(old.size(), now.size()) && old.get(head).equals(now.get(head))) {
            head++;
        }
        int tail = 0;
        while (tail < Math.min(old.size(), now.size()) - head
                && old.get(old.size() - 1 - tail).equals(now.get(now.size() - 1 - tail))) {
            tail++;
        }
        Node at = new Compose(SETTINGS).composeString(before).orElseThrow();
        int first = at.getStartMark().orElseThrow().getLine();
        int last = at.getEndMark().orElseThrow().getLine();
        for (Step step : path.steps()) {
            Optional<Part> next = next(at, step);
            if (next.isEmpty()) {
                break; // a new key, at the end of its group
            }
            at = next.get().value();
            first = next.get().first().getStartMark().orElseThrow().getLine();
            last = at.getEndMark().orElseThrow().getLine();
        }
        while (first > 0 && isBetween(old.get(first - 1))) {
            first--;
        }
        first--; // the dash, the comma before, or the key of what is empty now
        while (last + 1 < old.size() && isBetween(old.get(last + 1))) {
            last++;
        }
        last++;
        assertTrue(
                head >= Math.min(first, old.size()) && old.size() - tail <= last + 1,
                what
                        + "\nold lines "
                        + head
                        + ".."
                        + (old.size() - tail)
                        + " were touched, only "
                        + first
                        + ".."
                        + (last + 1)
                        + " may be\n"
                        + before
                        + "\n-----\n"
                        + after);
    }

    private static boolean isBetween(String line) {
        return line.isBlank() || line.strip().startsWith("#") || line.strip().equals("-");
    }

    /**
     * @param first the key, or the value in a list
     */
    private record Part(Node first, Node value) {}

    private static Optional<Part> next(Node at, Step step) {
        if (at instanceof SequenceNode list && step instanceof Step.Index index) {
            Node item = list.getValue().get(index.at());
            return Optional.of(new Part(item, item));
        }
        if (at instanceof MappingNode map && step instanceof Step.Key key) {
            for (NodeTuple tuple : map.getValue()) {
                if (((ScalarNode) tuple.getKeyNode()).getValue().equals(key.name())) {
                    return Optional.of(new Part(tuple.getKeyNode(), tuple.getValueNode()));
                }
            }
        }
        return Optional.empty();
    }
}
