package lookstep.server.plan.edit;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import lookstep.server.plan.edit.Piece.Bunch;
import lookstep.server.plan.edit.Piece.Member;

/** Cuts and fills groups and lists that have lines of their own. */
final class BlockText {
    private final String text;
    private final Lines lines;
    private final Style style;
    private final ValueText values;
    private final Bunch bunch;

    /**
     * The lines of a member with its comments.
     *
     * @param from where the first line begins, or the member if it shares its line with a dash
     * @param to where the next line begins
     * @param whole false if it shares its line with a dash
     */
    private record Chunk(int from, int to, boolean whole) {}

    BlockText(PlanDocument document, Bunch bunch) {
        text = document.text();
        lines = document.lines();
        style = document.style();
        values = new ValueText(style);
        this.bunch = bunch;
    }

    /**
     * Takes a member away, with its comments.
     *
     * @param holder where the whole group or list stands; null for that of the file
     */
    List<Splice> remove(int index, Member holder) {
        Chunk chunk = chunk(index);
        Member member = bunch.members().get(index);
        if (bunch.members().size() == 1) {
            return empty(chunk, member, holder);
        }
        if (chunk.whole()) {
            return List.of(Splice.cut(withSpace(chunk), chunk.to()));
        }
        Member next = bunch.members().get(index + 1);
        if (chunk.to() == lines.start(next.start())) {
            return List.of(Splice.cut(member.start(), next.start()));
        }
        return List.of(new Splice(lines.trimmed(member.start()), chunk.to(), style.lineEnd()));
    }

    private List<Splice> empty(Chunk chunk, Member member, Member holder) {
        String nothing = bunch.keyed() ? "{}" : "[]";
        if (!chunk.whole()) {
            return List.of(new Splice(member.start(), lines.end(member.end()), nothing));
        }
        if (holder == null) {
            return List.of(new Splice(chunk.from(), chunk.to(), nothing + style.lineEnd()));
        }
        return List.of(
                Splice.in(holder.after(), " " + nothing), Splice.cut(chunk.from(), chunk.to()));
    }

    /** Of the empty lines before and behind what goes, those before go too. */
    private int withSpace(Chunk chunk) {
        boolean spaceBehind = chunk.to() >= text.length() || lines.isBlankLine(chunk.to());
        int from = chunk.from();
        if (spaceBehind) {
            int before = lines.before(from);
            while (before >= 0 && lines.isBlankLine(before)) {
                from = before;
                before = lines.before(from);
            }
        }
        return from;
    }

    /** Puts a member in. */
    List<Splice> insert(int index, String key, JsonNode value) throws EditRefused {
        int column = lines.column(bunch.start());
        String body = values.member(key, bunch.keyed(), value, column, like(index, key, value));
        String indent = " ".repeat(column);
        String end = style.lineEnd();
        if (index == bunch.members().size()) {
            Chunk last = chunk(index - 1);
            String lead = endsOpen(last.to()) ? end : "";
            String tail = endsOpen(last.to()) ? "" : end;
            return List.of(
                    Splice.in(last.to(), lead + (spaced() ? end : "") + indent + body + tail));
        }
        Chunk next = chunk(index);
        String space = spaced() ? end : "";
        return List.of(
                next.whole()
                        ? Splice.in(next.from(), indent + body + end + space)
                        : Splice.in(next.from(), body + end + space + indent));
    }

    private Piece like(int index, String key, JsonNode value) {
        if (bunch.keyed()) {
            return ValueText.likeIn(bunch, key, value);
        }
        Piece near = bunch.members().get(Math.max(0, index - 1)).value();
        return near.json().getNodeType() == value.getNodeType()
                ? near
                : ValueText.likeIn(bunch, "", value);
    }

    /** Copies an item to directly behind it. */
    List<Splice> duplicate(int index) {
        Chunk chunk = chunk(index);
        String end = style.lineEnd();
        String copy = closed(text.substring(chunk.from(), chunk.to()));
        if (!chunk.whole()) {
            copy = " ".repeat(lines.column(bunch.start())) + copy;
        }
        String space = spaced() ? end : "";
        if (endsOpen(chunk.to())) {
            return List.of(Splice.in(chunk.to(), end + space + opened(copy)));
        }
        return List.of(Splice.in(chunk.to(), space + copy));
    }

    /** Puts an item elsewhere, with its comments; empty lines and other comments stay. */
    List<Splice> move(int from, int to) {
        int size = bunch.members().size();
        List<Integer> order = Order.moved(size, from, to);
        List<Splice> out = new ArrayList<>();
        for (int i = 0; i < size; i++) {
            Chunk here = chunk(i);
            Chunk other = chunk(order.get(i));
            String moved = closed(text.substring(other.from(), other.to()));
            int column = lines.column(bunch.start());
            if (!other.whole()) {
                moved = " ".repeat(column) + moved;
            }
            if (!here.whole()) {
                moved = moved.substring(Math.min(column, moved.length()));
            }
            out.add(
                    new Splice(
                            here.from(), here.to(), endsOpen(here.to()) ? opened(moved) : moved));
        }
        return out;
    }

    private Chunk chunk(int index) {
        Member member = bunch.members().get(index);
        int column = lines.column(member.start());
        int line = lines.start(member.start());
        boolean whole = lines.isBlank(line, member.start());
        int from = member.start();
        if (whole) {
            from = line;
            int before = lines.before(from);
            while (before >= 0 && belongsBelow(before, column, index)) {
                from = before;
                before = lines.before(from);
            }
        }
        int to = lines.next(member.end());
        while (to < text.length() && lines.commentColumn(to) > column) {
            to = lines.next(to);
        }
        return new Chunk(from, to, whole);
    }

    /** A comment that is farther in than an item belongs to what is above it. */
    private boolean belongsBelow(int line, int column, int index) {
        int comment = lines.commentColumn(line);
        return comment >= 0 && (comment <= column || index == 0);
    }

    /** Whether empty lines stand between members. */
    private boolean spaced() {
        int size = bunch.members().size();
        return size > 1 && lines.isBlankLine(chunk(size - 2).to());
    }

    /** The last line of the file has no line end. */
    private boolean endsOpen(int at) {
        return at == text.length() && at > 0 && !Lines.isBreak(text.charAt(at - 1));
    }

    private String closed(String part) {
        return Lines.isBreak(part.charAt(part.length() - 1)) ? part : part + style.lineEnd();
    }

    private String opened(String part) {
        return part.substring(0, part.length() - style.lineEnd().length());
    }
}
