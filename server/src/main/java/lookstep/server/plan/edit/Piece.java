package lookstep.server.plan.edit;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;

/** A value of the file and exactly where its text is. Offsets count Java chars. */
sealed interface Piece {
    /** Where its text begins. */
    int start();

    /** Behind its last char; comments and line ends behind it are not in it. */
    int end();

    /** What it says. */
    JsonNode json();

    /** A single value; start and end are the same where nothing is written. */
    record Leaf(int start, int end, JsonNode json) implements Piece {}

    /**
     * A group of keys or a list.
     *
     * @param keyed true for a group of keys
     * @param flow true in { } or [ ]
     */
    record Bunch(
            int start, int end, boolean keyed, boolean flow, List<Member> members, JsonNode json)
            implements Piece {
        public Bunch {
            members = List.copyOf(members);
        }

        int indexOf(String key) {
            for (int i = 0; i < members.size(); i++) {
                if (members.get(i).key().equals(key)) {
                    return i;
                }
            }
            return -1;
        }
    }

    /**
     * A key with its value, or an item of a list.
     *
     * @param key empty in a list
     * @param start where the key or the dash begins; in [ ] where the value does
     * @param after behind the colon or the dash; in [ ] where the value begins
     */
    record Member(String key, int start, int after, Piece value) {
        int end() {
            return Math.max(after, value.end());
        }
    }
}
