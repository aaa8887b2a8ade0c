package lookstep.server.plan.edit;

import java.util.HashSet;
import java.util.Set;

/**
 * How a file is written, to write new parts of it likewise.
 *
 * @param lineEnd what ends a line
 * @param indent by how many spaces a group is farther in than its key
 * @param listIndent by how many spaces a list is farther in than its key; may be 0
 * @param signed the keys some of whose numbers have a plus sign
 */
record Style(String lineEnd, int indent, int listIndent, Set<String> signed) {
    private static final int USUAL_INDENT = 2;

    Style {
        signed = Set.copyOf(signed);
    }

    static Style of(String text, Piece root, Lines lines) {
        Looking looking = new Looking(text, lines);
        looking.at(root, "", -1);
        return new Style(
                Lines.lineEnd(text),
                looking.indent > 0 ? looking.indent : USUAL_INDENT,
                looking.listIndent >= 0 ? looking.listIndent : USUAL_INDENT,
                looking.signed);
    }

    /** Goes through a file; the first group and the first list decide. */
    private static final class Looking {
        private final String text;
        private final Lines lines;
        private final Set<String> signed = new HashSet<>();
        private int indent;
        private int listIndent = -1;

        Looking(String text, Lines lines) {
            this.text = text;
            this.lines = lines;
        }

        /**
         * @param keyColumn how far in the key is of which this is the value; -1 if there is none
         */
        void at(Piece piece, String key, int keyColumn) {
            if (piece instanceof Piece.Leaf leaf) {
                if (leaf.json().isNumber() && text.charAt(leaf.start()) == '+') {
                    signed.add(key);
                }
                return;
            }
            Piece.Bunch bunch = (Piece.Bunch) piece;
            if (!bunch.flow() && keyColumn >= 0) {
                int farther = lines.column(bunch.start()) - keyColumn;
                if (bunch.keyed() && indent == 0) {
                    indent = farther;
                } else if (!bunch.keyed() && listIndent < 0) {
                    listIndent = farther;
                }
            }
            for (Piece.Member member : bunch.members()) {
                at(
                        member.value(),
                        bunch.keyed() ? member.key() : key,
                        bunch.keyed() && !bunch.flow() ? lines.column(member.start()) : -1);
            }
        }
    }
}
