package lookstep.server.plan.edit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Seeded edits, one after the other, on the demo and on awkward files. The tree afterwards is
 * reckoned beside, on the tree alone; a parser of YAML 1.2 (snakeyaml-engine) is the witness.
 */
class AnyEditTest {
    private static final int ROUNDS = 40;
    private static final int ROUNDS_OF_LARGE = 12;
    private static final int EDITS = 12;

    static Stream<String> names() {
        return Nasty.all().keySet().stream();
    }

    @ParameterizedTest
    @MethodSource("names")
    void theTextSaysWhatItShouldAndKeepsItsComments(String name) throws Exception {
        String text = Nasty.all().get(name);
        List<String> refused = new ArrayList<>();
        int made = 0;
        int rounds = text.length() > 4000 ? ROUNDS_OF_LARGE : ROUNDS;
        for (int round = 0; round < rounds; round++) {
            RandomEdits edits = new RandomEdits(round * 1000L + name.hashCode());
            PlanDocument document = PlanDocument.of(text);
            for (int i = 0; i < EDITS; i++) {
                RandomEdits.Wanted wanted = edits.next(document.toJson());
                PlanDocument after;
                try {
                    after = document.apply(wanted.edit());
                } catch (EditRefused e) {
                    refused.add(e.getMessage() + " <- " + wanted.edit() + "\n" + document.text());
                    continue;
                }
                made++;
                String what = name + ", round " + round + ", edit " + i + ": " + wanted.edit();
                says(wanted.json(), after, what);
                comments(document, after, wanted.edit(), what);
                lineEnds(document.text(), after.text(), what);
                PlanPath path = wanted.edit().path();
                boolean ofItem =
                        wanted.edit() instanceof Edit.Move
                                || wanted.edit() instanceof Edit.Duplicate;
                Touched.assertRestStays(
                        document.text(), after.text(), ofItem ? path.parent() : path, what);
                document = after;
            }
        }
        assertEquals(List.of(), refused);
        assertEquals(rounds * EDITS, made);
    }

    private static void says(JsonNode expected, PlanDocument after, String what)
            throws EditRefused {
        JsonNode rounded = Numbers.asWritten(expected);
        if (!Numbers.same(rounded, after.toJson())) {
            fail(
                    what
                            + "\nshould say "
                            + rounded
                            + "\nsays "
                            + after.toJson()
                            + "\n"
                            + after.text());
        }
        JsonNode other = Witness.json(after.text());
        if (!Numbers.same(rounded, other)) {
            fail(what + "\nshould say " + rounded + "\nwitness " + other + "\n" + after.text());
        }
    }

    private static void comments(PlanDocument before, PlanDocument after, Edit edit, String what) {
        List<String> old = Witness.comments(before.text());
        List<String> now = Witness.comments(after.text());
        if (edit instanceof Edit.Insert
                || (edit instanceof Edit.Set set
                        && (set.was().isNull()
                                || (set.was().isValueNode() && set.value().isValueNode())))) {
            assertEquals(old, now, what + "\n" + after.text());
        } else if (edit instanceof Edit.Move) {
            assertEquals(sorted(old), sorted(now), what + "\n" + after.text());
        } else if (edit instanceof Edit.Duplicate) {
            assertTrue(isWithin(old, now), what + "\n" + after.text());
        } else {
            assertTrue(isWithin(now, old), what + "\n" + after.text());
        }
    }

    private static List<String> sorted(List<String> texts) {
        return texts.stream().sorted().toList();
    }

    /** Whether the fewer are all among the more, in the same order. */
    private static boolean isWithin(List<String> fewer, List<String> more) {
        List<String> left = new ArrayList<>(fewer);
        for (String one : more) {
            if (!left.isEmpty() && left.get(0).equals(one)) {
                left.remove(0);
            }
        }
        return left.isEmpty();
    }

    private static void lineEnds(String before, String after, String what) {
        if (before.contains("\r\n")) {
            assertEquals(
                    after.chars().filter(c -> c == '\n').count(),
                    after.split("\r\n", -1).length - 1L,
                    what);
        } else {
            assertEquals(-1, after.indexOf('\r'), what);
        }
    }
}
