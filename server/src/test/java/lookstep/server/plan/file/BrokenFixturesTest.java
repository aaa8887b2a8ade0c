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
import org.junit.jupiter.params.provider.ValueSource;

/** Files with one thing wrong, against the reader and, as an independent program, the schema. */
class BrokenFixturesTest {
    private static final YAMLMapper YAML = new YAMLMapper();
    private static final Schema SCHEMA =
            SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                    .getSchema(ExampleFixture.schema());

    record Case(String text, boolean schema, List<String> errors) {}

    static Stream<Named<Case>> cases() throws IOException {
        try (InputStream in =
                BrokenFixturesTest.class.getResourceAsStream(
                        "/lookstep/plan/broken-fixture.yaml")) {
            List<JsonNode> all =
                    StreamSupport.stream(YAML.readTree(in).spliterator(), false).toList();
            return all.stream().map(BrokenFixturesTest::oneCase);
        }
    }

    private static Named<Case> oneCase(JsonNode node) {
        String put = node.get("put").asText();
        List<String> errors = new ArrayList<>();
        node.get("errors").forEach(e -> errors.add(e.asText()));
        String text = Kit.with(FixtureKit.SMALL, node.get("find").asText(), put);
        String name = put.isEmpty() ? "without " + node.get("find").asText() : put;
        return Named.of(Words.brief(name), new Case(text, node.get("schema").asBoolean(), errors));
    }

    @Test
    void thereAreManyCases() throws IOException {
        assertTrue(cases().count() > 110);
    }

    @ParameterizedTest
    @MethodSource("cases")
    void readerSaysWhereWhatAndTheMend(Case broken) {
        assertFalse(broken.errors().isEmpty());
        assertEquals(
                String.join("\n", broken.errors()),
                String.join("\n", FixtureKit.errors(broken.text())));
    }

    @ParameterizedTest
    @MethodSource("cases")
    void schemaRejectsWhatItCanExpress(Case broken) {
        assertEquals(broken.schema(), !accepts(broken.text()));
    }

    @Test
    void schemaAcceptsWhatTheReaderAccepts() {
        for (String good : List.of(ExampleFixture.text(), FixtureKit.SMALL)) {
            assertEquals(List.of(), FixtureKit.errors(good));
            assertTrue(accepts(good));
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "curve: square",
                "curve: smoothstep",
                "curve: 2.2",
                "curve: [[0, 0], [100, 100]]",
                "curve: [[0, 0], [5, 0], [50, 21.5], [90, 100], [100, 100]]"
            })
    void schemaAndReaderAcceptTheSameCurves(String put) {
        both(Kit.with(FixtureKit.SMALL, "curve: linear", put));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "[dimmer]",
                "[dimmer 16, {fixed: 0, is: fan}]",
                "[red 8, green 8, warm, cool, red, green, warm, cool]",
                "[dimmer, {whites: [cool, warm]}]",
                "[dimmer, {whites: [warm, cool], bits: 8, curve: square}]",
                "[dimmer, {tint: {greener: {green: 0.3}, pinker: {red: 1}}, bits: 16}]",
                "[dimmer, {fixed: 65535, bits: 16, is: shutter open}, {fixed: 0, is: fan}]"
            })
    void schemaAndReaderAcceptTheSameSlots(String put) {
        both(Kit.with(FixtureKit.SMALL, "[red, green, warm 16, cool]", put));
    }

    private static void both(String text) {
        assertEquals(List.of(), FixtureKit.errors(text));
        assertTrue(accepts(text));
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
