package lookstep.server.plan.edit;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.NavigableSet;
import lookstep.server.plan.edit.Piece.Bunch;
import lookstep.server.plan.edit.Piece.Member;

/** Cuts and fills what stands in [ ] or { }, on one line or on several. */
final class FlowText {
    private final String text;
    private final Lines lines;
    private final Style style;
    private final ValueText values;
    private final NavigableSet<Integer> commas;
    private final Bunch bunch;

    FlowText(PlanDocument document, Bunch bunch) {
        text = document.text();
        lines = document.lines();
        style = document.style();
        values = new ValueText(style);
        commas = document.commas();
        this.bunch = bunch;
    }

    /** Takes a member away, with its comments. */
    List<Splice> remove(int index) {
        int size = bunch.members().size();
        Member member = bunch.members().get(index);
        int comma = comma(index);
        int end = comma < 0 ? member.end() : comma + 1;
        List<Splice> out = new ArrayList<>();
        if (hasLines(index)) {
            out.add(Splice.cut(above(index), lines.next(end)));
        } else if (comma >= 0 && index < size - 1) {
            Member next = bunch.members().get(index + 1);
            int to = lines.isBlank(end, next.start()) ? next.start() : end;
            out.add(Splice.cut(member.start(), to));
        } else if (index > 0 || size == 1) {
            int from = index == 0 ? bunch.start() + 1 : bunch.members().get(index - 1).end();
            boolean bare = lines.isBlank(index == 0 ? from : comma(index - 1) + 1, member.start());
            out.add(Splice.cut(bare && index == 0 ? from : lines.trimmed(member.start()), end));
        }
        if (comma < 0 && index > 0) {
            out.add(Splice.cut(comma(index - 1), comma(index - 1) + 1));
        }
        return out;
    }

    /** Puts a member in. */
    List<Splice> insert(int index, String key, JsonNode value) throws EditRefused {
        int size = bunch.members().size();
        Piece like = size == 0 ? null : like(index, key, value);
        String body = values.flowMember(key, bunch.keyed(), value, like);
        if (size == 0) {
            return List.of(Splice.in(bunch.start() + 1, body));
        }
        if (index < size) {
            Member next = bunch.members().get(index);
            return List.of(
                    hasLines(index)
                            ? Splice.in(above(index), indent(next) + body + "," + style.lineEnd())
                            : Splice.in(next.start(), body + ", "));
        }
        Member last = bunch.members().get(size - 1);
        int comma = comma(size - 1);
        if (hasLines(size - 1)) {
            int end = comma < 0 ? last.end() : comma + 1;
            String line = indent(last) + body + (comma < 0 ? "" : ",") + style.lineEnd();
            Splice in = Splice.in(lines.next(end), line);
            return comma < 0 ? List.of(Splice.in(last.end(), ","), in) : List.of(in);
        }
        return List.of(
                comma < 0
                        ? Splice.in(last.end(), ", " + body)
                        : Splice.in(comma + 1, " " + body + ","));
    }

    private Piece like(int index, String key, JsonNode value) {
        if (bunch.keyed()) {
            return ValueText.likeIn(bunch, key, value);
        }
        return bunch.members().get(Math.max(0, index - 1)).value();
    }

    /** Copies an item to directly behind it. */
    List<Splice> duplicate(int index) {
        Member member = bunch.members().get(index);
        String body = text.substring(member.start(), member.end());
        int comma = comma(index);
        int end = comma < 0 ? member.end() : comma + 1;
        if (hasLines(index)) {
            String head = text.substring(above(index), member.start());
            String tail = text.substring(end, lines.next(end));
            String rest = comma < 0 ? "" : ",";
            Splice copy = Splice.in(lines.next(end), head + body + rest + tail);
            return comma < 0 ? List.of(Splice.in(member.end(), ","), copy) : List.of(copy);
        }
        return List.of(Splice.in(member.end(), ", " + body));
    }

    /** Puts an item elsewhere, with its comments; commas stay. */
    List<Splice> move(int from, int to) {
        int size = bunch.members().size();
        List<Integer> order = Order.moved(size, from, to);
        List<Splice> out = new ArrayList<>();
        for (int i = 0; i < size; i++) {
            int other = order.get(i);
            Member here = bunch.members().get(i);
            Member there = bunch.members().get(other);
            out.add(
                    new Splice(
                            here.start(), here.end(), text.substring(there.start(), there.end())));
            if (hasLines(i) && hasLines(other)) {
                out.add(new Splice(above(i), lines.start(here.start()), aboveText(other)));
                int tail = tail(i);
                out.add(new Splice(tail, lines.end(tail), tailText(other)));
            }
        }
        return out;
    }

    private String aboveText(int index) {
        return text.substring(above(index), lines.start(bunch.members().get(index).start()));
    }

    private int tail(int index) {
        int comma = comma(index);
        return comma < 0 ? bunch.members().get(index).end() : comma + 1;
    }

    private String tailText(int index) {
        return text.substring(tail(index), lines.end(tail(index)));
    }

    /** The comma behind a member; -1 if there is none. */
    private int comma(int index) {
        List<Member> members = bunch.members();
        Integer next = commas.ceiling(members.get(index).end());
        int limit = index + 1 < members.size() ? members.get(index + 1).start() : bunch.end();
        return next != null && next < limit ? next : -1;
    }

    /** Whether it has its lines for itself. */
    private boolean hasLines(int index) {
        Member member = bunch.members().get(index);
        int end = tail(index);
        int lineEnd = lines.end(end);
        int shown = lines.firstShown(end, lineEnd);
        return lines.isBlank(lines.start(member.start()), member.start())
                && (shown == lineEnd || text.charAt(shown) == '#')
                && lineEnd < bunch.end();
    }

    /** Where the comments directly above it begin, or else its line. */
    private int above(int index) {
        int from = lines.start(bunch.members().get(index).start());
        int before = lines.before(from);
        while (before > bunch.start() && lines.commentColumn(before) >= 0) {
            from = before;
            before = lines.before(from);
        }
        return from;
    }

    private String indent(Member member) {
        return text.substring(lines.start(member.start()), member.start());
    }
}
