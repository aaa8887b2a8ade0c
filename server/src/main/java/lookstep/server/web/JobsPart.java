package lookstep.server.web;

import java.util.ArrayList;
import java.util.List;
import lookstep.server.live.Frame;
import lookstep.server.live.LiveState;
import lookstep.server.plan.Job;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;

/**
 * Whom it is for.
 *
 * @param current the client whose pictures are made now
 * @param list all clients; empty while nothing is known of any
 */
public record JobsPart(String current, List<JobPart> list) {
    /** What the first client is called if the plan does not say. */
    static final String FIRST = "this shoot";

    /**
     * One client.
     *
     * @param shots how many are planned for them
     * @param inTheBag how many of those have a frame that is kept
     * @param frames how many are theirs
     */
    public record JobPart(
            String client,
            List<String> promised,
            String contact,
            String note,
            int shots,
            int inTheBag,
            int frames) {}

    static JobsPart of(ShootPlan plan, LiveState state) {
        List<Job> jobs = all(plan, state);
        if (jobs.isEmpty()) {
            return new JobsPart("", List.of());
        }
        String first = first(plan);
        return new JobsPart(
                name(plan, state.jobs().current()),
                jobs.stream().map(j -> part(plan, state, j, j.client().equals(first))).toList());
    }

    /** Those of the plan, or one without a name, and those that were opened. */
    private static List<Job> all(ShootPlan plan, LiveState state) {
        List<Job> planned = plan.around().jobs();
        List<Job> opened = state.jobs().opened();
        if (planned.isEmpty() && opened.isEmpty()) {
            return List.of();
        }
        List<Job> all = new ArrayList<>(planned);
        if (planned.isEmpty()) {
            all.add(new Job(FIRST, List.of(), "", ""));
        }
        opened.stream()
                .filter(o -> all.stream().noneMatch(j -> j.client().equals(o.client())))
                .forEach(all::add);
        return all;
    }

    /** The plan's first client. */
    static String first(ShootPlan plan) {
        return plan.around().jobs().isEmpty() ? FIRST : plan.around().jobs().get(0).client();
    }

    /** As the pages call the client that shots, frames and the state may leave empty. */
    static String name(ShootPlan plan, String client) {
        return client.isEmpty() ? first(plan) : client;
    }

    private static JobPart part(ShootPlan plan, LiveState state, Job job, boolean first) {
        List<Shot> shots =
                plan.shots().stream().filter(s -> is(s.use().job(), job, first)).toList();
        List<Frame> frames = state.frames().stream().filter(f -> is(f.job(), job, first)).toList();
        return new JobPart(
                job.client(),
                job.promised(),
                job.contact(),
                job.note(),
                shots.size(),
                (int) shots.stream().filter(s -> state.inTheBag(s.id())).count(),
                frames.size());
    }

    private static boolean is(String client, Job job, boolean first) {
        return client.equals(job.client()) || (first && client.isEmpty());
    }
}
