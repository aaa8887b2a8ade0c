package lookstep.server.live;

import java.util.List;

/**
 * What a frame is to know of its shot, whatever becomes of the plan later.
 *
 * @param look its look's name
 * @param people who is on it, left to right
 */
public record ShotFacts(String look, List<String> people) {
    /** Before the first shot. */
    public static final ShotFacts NONE = new ShotFacts("", List.of());

    public ShotFacts {
        people = List.copyOf(people);
    }
}
