package lookstep.server.order;

import java.util.List;

/**
 * What has to change before a shot.
 *
 * @param parts what changes and how long each would take alone; empty if nothing does
 * @param seconds until all of it is done, see {@link Changes}
 */
public record Change(List<Part> parts, double seconds) {
    /** Nothing changes. */
    static final Change NONE = new Change(List.of(), 0);

    /** One thing that changes, and how long it takes alone. */
    public record Part(ChangeKind kind, double seconds) {}

    public Change {
        parts = List.copyOf(parts);
    }

    /** What changes, in the order of {@link ChangeKind}. */
    public List<ChangeKind> kinds() {
        return parts.stream().map(Part::kind).toList();
    }
}
