package lookstep.server.plan;

import java.util.List;

/**
 * A client, and what they were promised.
 *
 * @param client unique
 * @param promised in words: a cover, two spreads
 * @param contact whom to reach, and how
 * @param note what else to know
 */
public record Job(String client, List<String> promised, String contact, String note) {
    public Job {
        promised = List.copyOf(promised);
    }
}
