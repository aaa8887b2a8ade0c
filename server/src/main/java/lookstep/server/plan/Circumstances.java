package lookstep.server.plan;

import java.util.List;

/**
 * What surrounds the pictures.
 *
 * @param locations all places of the shoot, in the order of the file; empty if there is only the
 *     one that the plan is at, of which no more is known
 * @param sensor the camera's
 * @param times how long moves take
 * @param jobs who the pictures are for; empty if that was not written
 * @param band what is known of the band
 */
public record Circumstances(
        List<Location> locations, Sensor sensor, MoveTimes times, List<Job> jobs, BandNotes band) {
    /** Nothing out of the ordinary. */
    public static final Circumstances NONE =
            new Circumstances(
                    List.of(), Sensor.FULL_FRAME, MoveTimes.USUAL, List.of(), BandNotes.NONE);

    public Circumstances {
        locations = List.copyOf(locations);
        jobs = List.copyOf(jobs);
    }
}
