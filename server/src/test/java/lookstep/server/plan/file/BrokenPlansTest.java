package lookstep.server.plan.file;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.Named;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Files with one thing wrong, against the reader and, as an independent program, the schema. */
class BrokenPlansTest {
    private static final YAMLMapper YAML = new YAMLMapper();
    private static final Schema SCHEMA =
            SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                    .getSchema(DemoShoot.schema());

    record Case(String text, boolean schema, List<String> errors) {}

    static Stream<Named<Case>> cases() throws IOException {
        try (InputStream in =
                BrokenPlansTest.class.getResourceAsStream("/lookstep/plan/broken.yaml")) {
            List<JsonNode> all =
                    StreamSupport.stream(YAML.readTree(in).spliterator(), false).toList();
            return all.stream().map(BrokenPlansTest::oneCase);
        }
    }

    private static Named<Case> oneCase(JsonNode node) {
        String put = node.get("put").asText();
        List<String> errors = new ArrayList<>();
        node.get("errors").forEach(e -> errors.add(e.asText()));
        String text = Kit.with(Kit.SMALL, node.get("find").asText(), put);
        String name = put.isEmpty() ? "without " + node.get("find").asText() : put;
        return Named.of(
                name.replaceAll("\\s+", " "),
                new Case(text, node.get("schema").asBoolean(), errors));
    }

    @Test
    void thereAreManyCases() throws IOException {
        assertTrue(cases().count() > 120);
    }

    @ParameterizedTest
    @MethodSource("cases")
    void readerSaysWhereWhatAndTheMend(Case broken) {
        assertFalse(broken.errors().isEmpty());
        assertEquals(
                String.join("\n", broken.errors()), String.join("\n", Kit.errors(broken.text())));
    }

    @ParameterizedTest
    @MethodSource("cases")
    void schemaRejectsWhatItCanExpress(Case broken) {
        assertEquals(broken.schema(), !accepts(broken.text()));
    }

    @Test
    void schemaAcceptsWhatTheReaderAccepts() {
        assertEquals(List.of(), Kit.errors(DemoShoot.text()));
        assertTrue(accepts(DemoShoot.text()));
        assertEquals(List.of(), Kit.errors(Kit.SMALL));
        assertTrue(accepts(Kit.SMALL));
    }

    @ParameterizedTest
    @MethodSource("spellings")
    void schemaAndReaderAcceptTheSameSpellings(String put) {
        String find = put.startsWith("window") ? "window: 5 min" : "    safe: true\n";
        String text = Kit.with(Kit.SMALL, find, put);
        assertEquals(List.of(), Kit.errors(text));
        assertTrue(accepts(text));
    }

    static Stream<String> spellings() {
        return Stream.of(
                "window: 8",
                "window: 90 s",
                "window: 12:30",
                "window: 0.5 h",
                "window: 8min",
                "window: 5 min\nhouse: {lux: 3}",
                "    safe: true\n    arrangement: line\n",
                "    safe: true\n    arrangement: Line\n",
                "    safe: true\n    arrangement: rows 1-1\n",
                "    safe: true\n    arrangement: {kind: rows, rows: [1, 1], row: 0.9}\n",
                "    safe: true\n    arrangement: {kind: cluster, spacing: 0.5}\n",
                "    safe: true\n    people: all\n",
                "    safe: true\n    people: [Bo]\n    arrangement: solo\n",
                "    safe: true\n    say: Chins down\n",
                "    safe: true\n    say: [Chins down, Breathe]\n",
                "    safe: true\n    say: |\n      Chins down\n",
                "    safe: true\n    id: X-1\n    framing: cover\n    importance: 3\n");
    }

    private static boolean accepts(String yaml) {
        JsonNode tree;
        try {
            tree = YAML.readTree(yaml);
        } catch (JsonProcessingException e) {
            return false;
        }
        return SCHEMA.validate(tree.toString(), InputFormat.JSON).isEmpty();
    }
}
