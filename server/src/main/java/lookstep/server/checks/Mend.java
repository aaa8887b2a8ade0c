package lookstep.server.checks;

import java.util.List;

/**
 * What would help.
 *
 * @param says in plain words, with the figure that was computed
 * @param changes the edits that carry it out; empty if nobody can compute them
 */
public record Mend(String says, List<Change> changes) {
    public Mend {
        changes = List.copyOf(changes);
    }

    /** For hands, not for the file. */
    static Mend words(String says) {
        return new Mend(says, List.of());
    }
}
