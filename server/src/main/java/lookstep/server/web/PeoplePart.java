package lookstep.server.web;

import java.util.List;
import lookstep.server.live.Frame;
import lookstep.server.live.LiveState;
import lookstep.server.plan.Person;
import lookstep.server.plan.ShootPlan;

/**
 * One of the band, and which pictures there are of them.
 *
 * @param soloInTheBag whether they have a solo that is kept
 * @param soloFrames of them alone, those left out not counted
 * @param groupFrames with others, those left out not counted
 */
public record PeoplePart(
        String name,
        String part,
        String note,
        boolean soloInTheBag,
        int soloFrames,
        int groupFrames) {
    static List<PeoplePart> of(ShootPlan plan, LiveState state) {
        return plan.people().stream().map(p -> one(p, state.frames())).toList();
    }

    private static PeoplePart one(Person person, List<Frame> frames) {
        List<Frame> theirs =
                frames.stream()
                        .filter(f -> f.mark() != Frame.Mark.OUT)
                        .filter(f -> f.people().contains(person.name()))
                        .toList();
        List<Frame> alone = theirs.stream().filter(f -> f.people().size() == 1).toList();
        return new PeoplePart(
                person.name(),
                person.part(),
                person.note(),
                alone.stream().anyMatch(f -> f.mark() == Frame.Mark.KEPT),
                alone.size(),
                theirs.size() - alone.size());
    }
}
