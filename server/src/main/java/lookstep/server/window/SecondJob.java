package lookstep.server.window;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import lookstep.server.live.NotPossible;
import lookstep.server.plan.Job;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;

/**
 * Somebody else wants pictures too: the same shots once more, for them.
 *
 * @param job who they are
 * @param shots theirs
 */
public record SecondJob(Job job, List<Shot> shots) {
    private static final int LONGEST = 60;

    /**
     * Opens it.
     *
     * @param ids shots of the plan that are to be made again for them
     * @throws NotPossible if there is no client's name, or a shot is not there
     */
    public static SecondJob of(ShootPlan plan, Job wanted, List<String> others, List<String> ids)
            throws NotPossible {
        String client = wanted.client().strip();
        if (client.isEmpty()) {
            throw new NotPossible("write who they are");
        }
        if (client.length() > LONGEST) {
            throw new NotPossible("write the client in at most " + LONGEST + " letters");
        }
        if (others.contains(client)) {
            throw new NotPossible("there is a client '" + client + "' already: switch to them");
        }
        Set<String> taken = new HashSet<>(plan.shots().stream().map(Shot::id).toList());
        List<Shot> shots = new ArrayList<>();
        for (String id : ids) {
            Shot like =
                    plan.shot(id)
                            .orElseThrow(
                                    () ->
                                            new NotPossible(
                                                    "there is no shot '"
                                                            + id
                                                            + "'; reload the page"));
            Shot theirs = theirs(like, client, taken);
            taken.add(theirs.id());
            shots.add(theirs);
        }
        return new SecondJob(
                new Job(client, wanted.promised(), wanted.contact(), wanted.note()), shots);
    }

    private static Shot theirs(Shot like, String client, Set<String> taken) {
        return new Shot(
                Ids.free(like.id() + "-" + Ids.slug(client), taken),
                like.name() + ", for " + client,
                false,
                like.look(),
                like.people(),
                like.arrangement(),
                like.lensMillimetres(),
                like.distanceMetres(),
                like.cameraHeightMetres(),
                like.framing(),
                like.say(),
                like.importance(),
                new Shot.Use(client, "", false, like.use().seconds(), like.use().text()));
    }
}
