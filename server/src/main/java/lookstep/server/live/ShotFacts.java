package lookstep.server.live;

import java.util.List;
import lookstep.server.plan.Shot;

/**
 * What a frame is to know of its shot, whatever becomes of the plan later.
 *
 * @param look its look's name
 * @param people who is on it, left to right
 * @param job whom it is for; empty if that goes by the time
 */
public record ShotFacts(String look, List<String> people, String job) {
    /** Before the first shot. */
    public static final ShotFacts NONE = new ShotFacts("", List.of(), "");

    public ShotFacts {
        people = List.copyOf(people);
    }

    /** As it is planned. */
    public static ShotFacts of(Shot shot) {
        return new ShotFacts(shot.look(), shot.people(), shot.use().job());
    }

    /** The same for this client, if the shot itself is for none in particular. */
    ShotFacts orFor(String client) {
        return job.isEmpty() ? new ShotFacts(look, people, client) : this;
    }
}
