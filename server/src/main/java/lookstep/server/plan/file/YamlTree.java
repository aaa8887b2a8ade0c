package lookstep.server.plan.file;

import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.dataformat.yaml.YAMLFactory;
import com.fasterxml.jackson.dataformat.yaml.YAMLParser;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Optional;
import lookstep.server.plan.file.Node.Entry;
import lookstep.server.plan.file.Node.Mapping;
import lookstep.server.plan.file.Node.Reported;
import lookstep.server.plan.file.Node.Scalar;
import lookstep.server.plan.file.Node.Sequence;

/** From YAML text to {@link Node}s: one document, no anchors, aliases or tags, no key twice. */
final class YamlTree {
    static final int DEEPEST = 20;

    private final YAMLParser parser;
    private final Problems problems;

    private YamlTree(YAMLParser parser, Problems problems) {
        this.parser = parser;
        this.problems = problems;
    }

    /** The document; empty when it has no syntax to go on with, which was then reported. */
    static Optional<Node> read(String text, Problems problems) {
        try (YAMLParser parser = YAMLFactory.builder().build().createParser(text)) {
            YamlTree tree = new YamlTree(parser, problems);
            JsonToken first = parser.nextToken();
            if (first == null) {
                problems.error(new Mark(1, 1), "the file is empty", problems.kind().beginning());
                return Optional.empty();
            }
            Node root = tree.value(first, 0);
            if (parser.nextToken() != null) {
                problems.error(
                        tree.here(),
                        "a second document begins here (after '---')",
                        problems.kind().one());
            }
            return Optional.of(root);
        } catch (JsonProcessingException e) {
            syntax(e, problems);
            return Optional.empty();
        } catch (IOException e) {
            throw new IllegalStateException("a string cannot fail to be read", e);
        }
    }

    private Node value(JsonToken token, int depth) throws IOException {
        Mark at = here();
        if (parser.isCurrentAlias()) {
            problems.error(
                    at,
                    "'*"
                            + parser.getText()
                            + "' is a YAML alias, which "
                            + files()
                            + " do not have",
                    "write the values out here");
            return new Reported(at);
        }
        // The parser tells of an anchor at a list or a group only; one at a single value is of no
        // use without an alias, which is told of.
        boolean opens = token == JsonToken.START_OBJECT || token == JsonToken.START_ARRAY;
        if (opens && parser.getObjectId() != null) {
            problems.error(
                    at,
                    "'&"
                            + parser.getObjectId()
                            + "' is a YAML anchor, which "
                            + files()
                            + " do not have",
                    "delete it, and write the values out where they are wanted again");
        }
        if (parser.getTypeId() != null) {
            problems.error(
                    at,
                    "there is a YAML tag ('!') here, which " + files() + " do not have",
                    "delete it");
            parser.skipChildren();
            return new Reported(at);
        }
        if (depth > DEEPEST) {
            problems.error(
                    at,
                    "values stand more than " + DEEPEST + " deep in each other",
                    problems.kind().depth());
            parser.skipChildren();
            return new Reported(at);
        }
        return switch (token) {
            case START_OBJECT -> mapping(at, depth);
            case START_ARRAY -> sequence(at, depth);
            case VALUE_NUMBER_INT, VALUE_NUMBER_FLOAT -> scalar(at, Scalar.Kind.NUMBER);
            case VALUE_TRUE, VALUE_FALSE -> scalar(at, Scalar.Kind.TRUTH);
            case VALUE_NULL -> scalar(at, Scalar.Kind.NOTHING);
            default -> scalar(at, Scalar.Kind.TEXT);
        };
    }

    private String files() {
        return problems.kind().noun() + " files";
    }

    private Scalar scalar(Mark at, Scalar.Kind kind) throws IOException {
        String text = parser.getText().strip();
        return new Scalar(at, text, text.isEmpty() ? Scalar.Kind.NOTHING : kind);
    }

    private Sequence sequence(Mark at, int depth) throws IOException {
        List<Node> items = new ArrayList<>();
        for (JsonToken t = parser.nextToken(); t != JsonToken.END_ARRAY; t = parser.nextToken()) {
            items.add(value(t, depth + 1));
        }
        return new Sequence(at, items);
    }

    private Mapping mapping(Mark at, int depth) throws IOException {
        LinkedHashMap<String, Entry> entries = new LinkedHashMap<>();
        for (JsonToken t = parser.nextToken(); t != JsonToken.END_OBJECT; t = parser.nextToken()) {
            Mark keyAt = here();
            String key = parser.getText();
            Node value = value(parser.nextToken(), depth + 1);
            Entry first = entries.putIfAbsent(key, new Entry(keyAt, value));
            if (first != null) {
                problems.error(
                        keyAt,
                        "'" + Words.brief(key) + "' stands here for the second time",
                        "keep one of the two; the first is on line " + first.keyAt().line());
            }
        }
        return new Mapping(at, entries);
    }

    private Mark here() {
        JsonLocation l = parser.currentTokenLocation();
        return new Mark(l.getLineNr(), l.getColumnNr());
    }

    private static void syntax(JsonProcessingException e, Problems problems) {
        // Jackson's own location is where it was before the trouble.
        if (e.getCause() instanceof org.yaml.snakeyaml.error.MarkedYAMLException marked
                && marked.getProblemMark() != null) {
            var at = marked.getProblemMark();
            var opened = marked.getContextMark();
            Sentence s =
                    Sentence.of(
                            String.valueOf(marked.getProblem()),
                            opened == null ? 0 : opened.getLine() + 1,
                            problems.kind().example());
            problems.error(new Mark(at.getLine() + 1, at.getColumn() + 1), s.what(), s.mend());
            return;
        }
        if (problems.errorCount() > 0) {
            return; // what was found before is why the parser gave up
        }
        JsonLocation l = e.getLocation();
        problems.error(
                new Mark(
                        l == null ? 1 : Math.max(1, l.getLineNr()),
                        l == null ? 1 : Math.max(1, l.getColumnNr())),
                "this is no YAML that a " + problems.kind().noun() + " file can have",
                "write keys as plain words, each followed by a colon and a space");
    }

    /** The parser's own words are for people who write parsers. */
    private record Sentence(String what, String mend) {
        static Sentence of(String problem, int openedLine, String example) {
            if (problem.contains("(TAB)")) {
                return new Sentence("there is a tab here", "indent with spaces");
            }
            if (problem.contains("cannot start any token")) {
                return new Sentence(
                        "a value cannot begin with this sign", "put the value in quotes: \"...\"");
            }
            if (problem.contains("mapping values are not allowed")) {
                return new Sentence(
                        "a colon with a space after it does not fit here",
                        "put a text that has a colon in quotes, or begin the key on its own line,"
                                + " as far in as its neighbours");
            }
            if (problem.contains("expected <block end>")) {
                return new Sentence(
                        "this line is not as far in as its neighbours",
                        "give it as many leading spaces as the lines it belongs to (the group"
                                + " began on line "
                                + openedLine
                                + ")");
            }
            if (problem.contains("could not find expected ':'")) {
                return new Sentence(
                        "the line " + openedLine + " has a key without a colon",
                        "write a colon and a space after the key");
            }
            if (problem.contains("unexpected end of stream")) {
                return new Sentence(
                        "a text in quotes does not end",
                        "close the quote that was opened on line " + openedLine);
            }
            if (problem.contains("expected ',' or ']'")) {
                return new Sentence(
                        "a list in [ ] is not closed or lacks a comma",
                        "look at the '[' on line " + openedLine);
            }
            if (problem.contains("expected ',' or '}'")) {
                return new Sentence(
                        "a group in { } is not closed or lacks a comma",
                        "look at the '{' on line " + openedLine);
            }
            if (problem.contains("escape")) {
                return new Sentence(
                        "a backslash in a text in double quotes means something else to YAML",
                        "write the text in single quotes: '...'");
            }
            return new Sentence(
                    "this is not YAML (" + problem.strip() + ")",
                    "compare with a line of " + example + " that looks alike");
        }
    }
}
