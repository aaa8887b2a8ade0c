package lookstep.server.live;

import java.util.ArrayList;
import java.util.List;
import lookstep.server.plan.Job;

/**
 * Who it is for, and since when.
 *
 * @param opened jobs that were won on the set; those of the plan are not among them
 * @param since in the order of time
 */
public record Jobs(List<Job> opened, List<Since> since) {
    /** For whom the plan says. */
    public static final Jobs NONE = new Jobs(List.of(), List.of());

    /**
     * From now on for this client.
     *
     * @param client empty for the plan's first
     */
    public record Since(long atEpochMillis, String client) {}

    public Jobs {
        opened = List.copyOf(opened);
        since = List.copyOf(since);
    }

    /** Whom it is for now; empty for the plan's first. */
    public String current() {
        return since.isEmpty() ? "" : since.get(since.size() - 1).client();
    }

    /** Whom it was for at a moment. */
    public String at(long epochMillis) {
        String client = "";
        for (Since one : since) {
            if (one.atEpochMillis() <= epochMillis) {
                client = one.client();
            }
        }
        return client;
    }

    Jobs with(Job job) {
        List<Job> more = new ArrayList<>(opened);
        more.removeIf(j -> j.client().equals(job.client()));
        more.add(job);
        return new Jobs(more, since);
    }

    Jobs switched(long atEpochMillis, String client) {
        List<Since> more = new ArrayList<>(since);
        more.add(new Since(atEpochMillis, client));
        return new Jobs(opened, more);
    }
}
