package lookstep.server.web;

import java.time.Duration;
import java.time.LocalTime;
import java.util.List;
import java.util.Optional;
import lookstep.server.live.LiveState;
import lookstep.server.live.PlanInState;
import lookstep.server.plan.Light;
import lookstep.server.plan.Location;
import lookstep.server.plan.ShootPlan;

/**
 * The places of the shoot.
 *
 * @param now the name of the one where it is
 * @param list in the order of the plan
 * @param says what is to be said of the time there; empty if nothing
 */
public record PlacesPart(String now, List<PlacePart> list, String says) {
    /** From here on the time is worth a word. */
    private static final long SOON_MINUTES = 30;

    /**
     * One place.
     *
     * @param from when it can be had, null if at any time
     * @param until when it must be left, null if at any time
     * @param lights that are there
     * @param missing lights of the rig that are not
     * @param shots how many of the plan can be made there
     */
    public record PlacePart(
            String name,
            String from,
            String until,
            String access,
            String ask,
            List<String> notes,
            List<String> lights,
            List<String> missing,
            int shots,
            boolean now) {}

    /**
     * @param read the plan as its file says
     * @param time of day where the shoot is
     */
    static PlacesPart of(ShootPlan read, LiveState state, LocalTime time) {
        String now = PlanInState.place(read, state);
        Location here =
                read.locations().stream()
                        .filter(l -> l.name().equals(now))
                        .findFirst()
                        .orElseThrow();
        return new PlacesPart(
                now,
                read.locations().stream().map(l -> part(read, l, l.name().equals(now))).toList(),
                says(here, time));
    }

    private static PlacePart part(ShootPlan read, Location location, boolean now) {
        List<String> there = location.rig().stream().map(Light::name).toList();
        return new PlacePart(
                location.name(),
                location.from().map(LocalTime::toString).orElse(null),
                location.until().map(LocalTime::toString).orElse(null),
                location.access(),
                location.ask(),
                location.notes(),
                there,
                read.rig().stream().map(Light::name).filter(n -> !there.contains(n)).toList(),
                read.at(location.name()).shots().size(),
                now);
    }

    /** Half a day either way: a show that ends after midnight is not long past in the evening. */
    private static String says(Location here, LocalTime time) {
        Optional<Long> left = here.until().map(u -> minutes(time, u));
        Optional<Long> coming = here.from().map(f -> minutes(time, f));
        if (left.isPresent() && left.get() <= 0) {
            return "was to be left at " + here.until().get();
        } else if (left.isPresent() && left.get() <= SOON_MINUTES) {
            return "must be left at " + here.until().get() + ", in " + left.get() + " min";
        } else if (coming.isPresent() && coming.get() > 0) {
            return "can be had from " + here.from().get();
        }
        return "";
    }

    private static long minutes(LocalTime from, LocalTime to) {
        long minutes = Duration.between(from, to).toMinutes();
        long halfDay = Duration.ofHours(12).toMinutes();
        return minutes > halfDay
                ? minutes - 2 * halfDay
                : minutes <= -halfDay ? minutes + 2 * halfDay : minutes;
    }
}
