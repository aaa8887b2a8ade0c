package lookstep.server.plan.edit;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import lookstep.server.plan.edit.Piece.Bunch;
import lookstep.server.plan.edit.Piece.Member;

/** The single steps of edits, each from one document to the next; paths are keys and indices. */
final class Writing {
    private Writing() {}

    /** Takes a key or an item away. */
    static PlanDocument remove(PlanDocument document, PlanPath path) throws EditRefused {
        Spot spot = Spot.of(document, path);
        List<Splice> splices =
                spot.in().flow()
                        ? new FlowText(document, spot.in()).remove(spot.index())
                        : new BlockText(document, spot.in()).remove(spot.index(), spot.holder());
        return document.with(splices);
    }

    /** Puts a key (empty for an item of a list) into a group or list, which may be empty. */
    /** Another name for a key, at its place; what is around it stays. */
    static PlanDocument rename(PlanDocument document, PlanPath path, String name)
            throws EditRefused {
        Spot spot = Spot.of(document, path);
        Piece.Member member = spot.member();
        String written = document.text().substring(member.start(), member.after());
        int colon = written.lastIndexOf(':');
        String key = written.substring(0, colon).stripTrailing();
        return document.with(
                List.of(
                        new Splice(
                                member.start(),
                                member.start() + key.length(),
                                ScalarText.of(name, spot.in().flow(), key.startsWith("'")))));
    }

    static PlanDocument insert(
            PlanDocument document, PlanPath into, int index, String key, JsonNode value)
            throws EditRefused {
        Spot spot = Spot.of(document, into);
        Bunch bunch = (Bunch) spot.piece();
        if (!bunch.members().isEmpty()) {
            return document.with(
                    bunch.flow()
                            ? new FlowText(document, bunch).insert(index, key, value)
                            : new BlockText(document, bunch).insert(index, key, value));
        }
        boolean ownLines = value.isContainerNode() && spot.in() != null && !spot.in().flow();
        if (!ownLines || lookAhead(document, bunch)) {
            return document.with(new FlowText(document, bunch).insert(index, key, value));
        }
        return document.with(replace(document, spot, Trees.with(bunch.json(), key, value)));
    }

    /** Whether something is written between the brackets, which has to stay. */
    private static boolean lookAhead(PlanDocument document, Bunch bunch) {
        return document.lines().hasComment(bunch.start(), bunch.end());
    }

    /** Gives what is there another value; of groups and lists only what differs. */
    static PlanDocument set(PlanDocument document, PlanPath path, JsonNode value)
            throws EditRefused {
        Spot spot = Spot.of(document, path);
        JsonNode was = spot.piece().json();
        if (Numbers.same(was, value)) {
            return document;
        }
        if (was.isObject() && value.isObject() && !was.isEmpty()) {
            return setGroup(document, path, was, value);
        }
        if (was.isArray() && value.isArray() && !was.isEmpty()) {
            return setList(document, path, was, value);
        }
        return document.with(replace(document, spot, value));
    }

    private static PlanDocument setGroup(
            PlanDocument document, PlanPath path, JsonNode was, JsonNode value) throws EditRefused {
        PlanDocument out = document;
        for (var entry : value.properties()) {
            if (was.has(entry.getKey())) {
                out = set(out, path.then(entry.getKey()), entry.getValue());
            } else {
                int end = Spot.of(out, path).piece().json().size();
                out = insert(out, path, end, entry.getKey(), entry.getValue());
            }
        }
        for (var entry : was.properties()) {
            if (!value.has(entry.getKey())) {
                out = remove(out, path.then(entry.getKey()));
            }
        }
        return out;
    }

    private static PlanDocument setList(
            PlanDocument document, PlanPath path, JsonNode was, JsonNode value) throws EditRefused {
        int shorter = Math.min(was.size(), value.size());
        int head = 0;
        while (head < shorter && Numbers.same(was.get(head), value.get(head))) {
            head++;
        }
        int tail = 0;
        while (tail < shorter - head
                && Numbers.same(
                        was.get(was.size() - 1 - tail), value.get(value.size() - 1 - tail))) {
            tail++;
        }
        PlanDocument out = document;
        for (int i = head; i < shorter - tail; i++) {
            out = set(out, path.then(i), value.get(i));
        }
        for (int i = was.size() - tail - 1; i >= shorter - tail; i--) {
            out = remove(out, path.then(i));
        }
        for (int i = shorter - tail; i < value.size() - tail; i++) {
            out = insert(out, path, i, "", value.get(i));
        }
        return out;
    }

    /** Copies an item to directly behind it. */
    static PlanDocument duplicate(PlanDocument document, PlanPath path) throws EditRefused {
        Spot spot = Spot.of(document, path);
        return document.with(
                spot.in().flow()
                        ? new FlowText(document, spot.in()).duplicate(spot.index())
                        : new BlockText(document, spot.in()).duplicate(spot.index()));
    }

    /** Puts an item to another place of its list. */
    static PlanDocument move(PlanDocument document, PlanPath path, int to) throws EditRefused {
        Spot spot = Spot.of(document, path);
        return document.with(
                spot.in().flow()
                        ? new FlowText(document, spot.in()).move(spot.index(), to)
                        : new BlockText(document, spot.in()).move(spot.index(), to));
    }

    private static List<Splice> replace(PlanDocument document, Spot spot, JsonNode value)
            throws EditRefused {
        Piece old = spot.piece();
        Lines lines = document.lines();
        ValueText values = new ValueText(document.style());
        String key = nearestKey(spot);
        if (spot.in() != null && spot.in().flow()) {
            String one =
                    value.isValueNode()
                            ? scalar(document, spot, value, key, true)
                            : values.flow(key, value, null);
            boolean glued = old.start() == old.end() && spot.in().keyed();
            return List.of(
                    new Splice(old.start(), old.end(), glued ? emptyInFlow(spot, one) : one));
        }
        String behind =
                value.isValueNode()
                        ? " " + scalar(document, spot, value, key, false)
                        : behind(values, document, spot, value, key);
        if (spot.in() == null) {
            throw new EditRefused("the whole plan cannot be replaced", "change its parts");
        }
        Member member = spot.member();
        int after = member.after();
        boolean block = old instanceof Bunch bunch && !bunch.flow();
        if (!block && !isLines(document, behind)) {
            // Spaces that align a value are kept.
            return List.of(
                    old.start() > after
                            ? new Splice(old.start(), old.end(), behind.substring(1))
                            : new Splice(after, old.end(), behind));
        }
        if (block) {
            boolean sharesLine = lines.start(old.start()) == lines.start(after);
            if (sharesLine) {
                return List.of(new Splice(after, lines.end(old.end()), behind));
            }
            int from = lines.next(after);
            int to = lines.next(old.end());
            if (!isLines(document, behind)) {
                return List.of(Splice.in(after, behind), Splice.cut(from, to));
            }
            String rest = behind.substring(document.style().lineEnd().length());
            return List.of(new Splice(from, to, rest + document.style().lineEnd()));
        }
        List<Splice> out = new ArrayList<>();
        out.add(Splice.cut(after, old.end()));
        out.add(Splice.in(lines.end(old.end()), behind));
        return out;
    }

    /** {@code {a, b: }}: a colon may be missing. */
    private static String emptyInFlow(Spot spot, String one) {
        Member member = spot.member();
        boolean hasColon = member.after() > member.start() + member.key().length();
        return (hasColon ? " " : ": ") + one;
    }

    private static boolean isLines(PlanDocument document, String behind) {
        return behind.startsWith(document.style().lineEnd());
    }

    private static String behind(
            ValueText values, PlanDocument document, Spot spot, JsonNode value, String key)
            throws EditRefused {
        if (spot.in() == null) {
            return "";
        }
        int column = document.lines().column(spot.in().start());
        Piece like = spot.in().keyed() ? null : other(spot);
        if (spot.in().keyed()) {
            return values.behindKey(key, value, column, like);
        }
        return values.member(key, false, value, column, like).substring(1);
    }

    private static Piece other(Spot spot) {
        return spot.in()
                .members()
                .get(spot.index() == 0 ? spot.in().members().size() - 1 : 0)
                .value();
    }

    private static String scalar(
            PlanDocument document, Spot spot, JsonNode value, String key, boolean flow)
            throws EditRefused {
        Piece old = spot.piece();
        char first = old.end() > old.start() ? document.text().charAt(old.start()) : ' ';
        boolean inList = spot.in() != null && !spot.in().keyed();
        boolean plus = first == '+' || (!inList && document.style().signed().contains(key));
        return ScalarText.of(value, flow, plus, first == '\'');
    }

    private static String nearestKey(Spot spot) {
        if (spot.in() == null) {
            return "";
        }
        if (spot.in().keyed()) {
            return spot.member().key();
        }
        return spot.holder() == null ? "" : spot.holder().key();
    }
}
