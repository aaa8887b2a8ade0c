package lookstep.server.plan;

import java.time.LocalTime;
import java.util.List;
import java.util.Optional;

/**
 * One place of the shoot with all that belongs to it: the room, its light, when it can be had, the
 * mains, and what of the rig stands there.
 *
 * @param place the room
 * @param house the light that is there already
 * @param from when it can be had; empty if at any time
 * @param until when it must be left; empty if at any time
 * @param rig the lights that are there, as they stand there
 * @param circuits the mains; empty if nothing is known of them
 * @param access how to get in; empty if nothing was written
 * @param ask whom to ask; empty if nothing was written
 * @param notes what else to know
 */
public record Location(
        Place place,
        House house,
        Optional<LocalTime> from,
        Optional<LocalTime> until,
        List<Light> rig,
        List<Circuit> circuits,
        String access,
        String ask,
        List<String> notes) {
    public Location {
        rig = List.copyOf(rig);
        circuits = List.copyOf(circuits);
        notes = List.copyOf(notes);
    }

    /** Nothing known but the room and its light. */
    public static Location of(Place place, House house, List<Light> rig) {
        return new Location(
                place,
                house,
                Optional.empty(),
                Optional.empty(),
                rig,
                List.of(),
                "",
                "",
                List.of());
    }

    /** What it is called. */
    public String name() {
        return place.name();
    }
}
