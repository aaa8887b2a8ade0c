package lookstep.server.plan.edit;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.NullNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLFactory;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.NavigableSet;
import java.util.Set;
import java.util.TreeSet;
import org.yaml.snakeyaml.DumperOptions;
import org.yaml.snakeyaml.LoaderOptions;
import org.yaml.snakeyaml.Yaml;
import org.yaml.snakeyaml.error.Mark;
import org.yaml.snakeyaml.error.YAMLException;
import org.yaml.snakeyaml.nodes.MappingNode;
import org.yaml.snakeyaml.nodes.Node;
import org.yaml.snakeyaml.nodes.NodeTuple;
import org.yaml.snakeyaml.nodes.ScalarNode;
import org.yaml.snakeyaml.nodes.SequenceNode;
import org.yaml.snakeyaml.reader.StreamReader;
import org.yaml.snakeyaml.scanner.ScannerImpl;
import org.yaml.snakeyaml.tokens.Token;

/**
 * Reads a text into {@link Piece}s. What each value says is what the plan reader's own parser makes
 * of it; where it stands is what the marks of the parser below that one say.
 */
final class SpanReader {
    private static final ObjectMapper YAML = new ObjectMapper(YAMLFactory.builder().build());

    private final String text;
    private final int[] offsets;
    private final NavigableSet<Integer> colonEnds = new TreeSet<>();
    private final NavigableSet<Integer> dashes = new TreeSet<>();
    private final NavigableSet<Integer> commas = new TreeSet<>();
    private final List<int[]> scalars = new ArrayList<>();

    /** What a text was read into. */
    record Spans(Piece root, Lines lines, NavigableSet<Integer> commas) {}

    private SpanReader(String text) {
        this.text = text;
        offsets = offsets(text);
    }

    /**
     * Reads it.
     *
     * @throws EditRefused if it is not YAML, or has what plan files do not have
     */
    static Spans read(String text) throws EditRefused {
        String body = text.startsWith("\uFEFF") ? text.substring(1) : text;
        try {
            SpanReader reader = new SpanReader(text);
            reader.tokens(body);
            Node node = new Yaml().compose(new StringReader(body));
            JsonNode json = YAML.readTree(body);
            if (node == null || json == null || json.isMissingNode()) {
                throw new EditRefused("the file is empty", "begin it with a line 'title: '");
            }
            return new Spans(
                    reader.piece(node, json), new Lines(text, reader.comments()), reader.commas);
        } catch (YAMLException | JsonProcessingException e) {
            throw new EditRefused(
                    "the text is not YAML that can be edited here (" + firstLine(e) + ")",
                    "mend it in a text editor");
        }
    }

    private static String firstLine(Exception e) {
        return String.valueOf(e.getMessage()).lines().findFirst().orElse("");
    }

    /** Marks count code points; a letter beyond the first 65536 is two chars. */
    private static int[] offsets(String text) {
        int from = text.startsWith("\uFEFF") ? 1 : 0;
        int[] out = new int[text.codePointCount(from, text.length()) + 1];
        int at = from;
        for (int i = 0; i < out.length; i++) {
            out[i] = at;
            if (at < text.length()) {
                at += Character.charCount(text.codePointAt(at));
            }
        }
        return out;
    }

    private int at(Mark mark) {
        return offsets[Math.min(mark.getIndex(), offsets.length - 1)];
    }

    private void tokens(String body) throws EditRefused {
        ScannerImpl scanner = new ScannerImpl(new StreamReader(body), new LoaderOptions());
        int documents = 0;
        while (scanner.checkToken()) {
            Token token = scanner.getToken();
            int start = at(token.getStartMark());
            int end = at(token.getEndMark());
            switch (token.getTokenId()) {
                case Scalar -> scalars.add(new int[] {start, end});
                case Value -> colonEnds.add(end);
                case BlockEntry -> dashes.add(start);
                case FlowEntry -> commas.add(start);
                case Key -> {
                    if (end > start) {
                        throw odd(token, "a key that begins with '?'");
                    }
                }
                case Alias, Anchor -> throw odd(token, "a YAML anchor or alias");
                case Tag -> throw odd(token, "a YAML tag");
                case DocumentStart -> {
                    documents++;
                    if (documents > 1) {
                        throw odd(token, "a second document");
                    }
                }
                default -> {}
            }
        }
    }

    private static EditRefused odd(Token token, String what) {
        return new EditRefused(
                "line " + (token.getStartMark().getLine() + 1) + " has " + what,
                "write it out in a text editor");
    }

    private List<Lines.Comment> comments() {
        List<Lines.Comment> out = new ArrayList<>();
        int scalar = 0;
        int i = 0;
        while (i < text.length()) {
            while (scalar < scalars.size() && scalars.get(scalar)[1] <= i) {
                scalar++;
            }
            if (scalar < scalars.size() && scalars.get(scalar)[0] <= i) {
                i = scalars.get(scalar)[1];
            } else if (text.charAt(i) == '#') {
                int end = i;
                while (end < text.length() && !Lines.isBreak(text.charAt(end))) {
                    end++;
                }
                out.add(new Lines.Comment(i, end));
                i = end;
            } else {
                i++;
            }
        }
        return out;
    }

    private Piece piece(Node node, JsonNode json) throws EditRefused {
        int start = at(node.getStartMark());
        int end = at(node.getEndMark());
        if (node instanceof MappingNode map && json.isObject()) {
            return group(map, json, start, end);
        }
        if (node instanceof SequenceNode list && json.isArray()) {
            return list(list, json, start, end);
        }
        if (node instanceof ScalarNode && json.isValueNode()) {
            // The tree has "" for a key without a value.
            boolean nothing = start == end && json.isTextual();
            return new Piece.Leaf(start, scalarEnd(start, end), nothing ? NullNode.instance : json);
        }
        throw new EditRefused(
                "line " + (node.getStartMark().getLine() + 1) + " can be read in two ways",
                "write it plainly in a text editor");
    }

    /** A block scalar's mark is behind its line end and the empty lines that follow. */
    private int scalarEnd(int start, int end) {
        int i = end;
        while (i > start && Character.isWhitespace(text.charAt(i - 1))) {
            i--;
        }
        return i;
    }

    private Piece group(MappingNode map, JsonNode json, int start, int end) throws EditRefused {
        boolean flow = map.getFlowStyle() == DumperOptions.FlowStyle.FLOW;
        if (flow && text.charAt(start) != '{') {
            throw new EditRefused(
                    "line " + (map.getStartMark().getLine() + 1) + " has a key without { } in [ ]",
                    "put { } around it in a text editor");
        }
        List<Piece.Member> members = new ArrayList<>();
        Set<String> seen = new HashSet<>();
        for (NodeTuple tuple : map.getValue()) {
            Node key = tuple.getKeyNode();
            if (!(key instanceof ScalarNode name) || !seen.add(name.getValue())) {
                throw new EditRefused(
                        "line "
                                + (key.getStartMark().getLine() + 1)
                                + " has a key that is no word, or that stands there twice",
                        "mend it in a text editor");
            }
            JsonNode value = json.path(name.getValue());
            Piece piece = piece(tuple.getValueNode(), value);
            ((ObjectNode) json).set(name.getValue(), piece.json());
            int keyEnd = at(key.getEndMark());
            Integer colon = colonEnds.ceiling(keyEnd);
            int after = colon != null && colon <= piece.start() ? colon : keyEnd;
            members.add(new Piece.Member(name.getValue(), at(key.getStartMark()), after, piece));
        }
        return new Piece.Bunch(start, flow ? end : blockEnd(members), true, flow, members, json);
    }

    private Piece list(SequenceNode list, JsonNode json, int start, int end) throws EditRefused {
        boolean flow = list.getFlowStyle() == DumperOptions.FlowStyle.FLOW;
        List<Integer> own = flow ? List.of() : dashes(start, end);
        List<Piece.Member> members = new ArrayList<>();
        for (Node item : list.getValue()) {
            int i = members.size();
            Piece piece = piece(item, json.path(i));
            ((ArrayNode) json).set(i, piece.json());
            int from = flow ? piece.start() : own.get(i);
            members.add(new Piece.Member("", from, flow ? from : from + 1, piece));
        }
        return new Piece.Bunch(start, flow ? end : blockEnd(members), false, flow, members, json);
    }

    /** The dashes of a list are as far in as its first; those of lists inside it are farther. */
    private List<Integer> dashes(int start, int end) {
        int column = column(start);
        return dashes.subSet(start, true, end, false).stream()
                .filter(d -> column(d) == column)
                .toList();
    }

    private int column(int at) {
        int i = at;
        while (i > 0 && !Lines.isBreak(text.charAt(i - 1))) {
            i--;
        }
        return at - (i == 0 ? offsets[0] : i);
    }

    private static int blockEnd(List<Piece.Member> members) {
        return members.get(members.size() - 1).end();
    }
}
