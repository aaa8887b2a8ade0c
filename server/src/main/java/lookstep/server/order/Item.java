package lookstep.server.order;

import java.util.Map;
import java.util.Set;

/**
 * One shot as the running order sees it: what it is worth, how long it takes, what must stand.
 *
 * @param id unique within a running order
 * @param safe true for the shot that must exist before any other
 * @param importance 1..10; a 10 counts as much as two of 5
 * @param shootSeconds from ready to made, more than 0, at most 3600
 * @param look the look's name
 * @param people who is in it
 * @param arrangement how they stand
 * @param direction what is said to them; a new one costs words
 * @param framing the format and how much of them is seen
 * @param lensMillimetres focal length, more than 0
 * @param distanceMetres camera to the nearest face
 * @param cameraHeightMetres lens above the floor
 * @param movedLights lights that stand elsewhere than in the rig, and where
 * @param room the room or spot that all of them are in
 * @param group shots that come directly one after the other, all or none; "" for none
 * @param splittable the group is a round (of solos) that may be cut short, but not interrupted; the
 *     same for all of a group
 * @param job whom it is for
 */
public record Item(
        String id,
        boolean safe,
        int importance,
        double shootSeconds,
        String look,
        Set<String> people,
        String arrangement,
        String direction,
        String framing,
        double lensMillimetres,
        double distanceMetres,
        double cameraHeightMetres,
        Map<String, String> movedLights,
        String room,
        String group,
        boolean splittable,
        String job) {
    private static final double MOST_SECONDS = 3600;

    /**
     * @throws IllegalArgumentException naming the shot and what is wrong with it
     */
    public Item {
        if (id.isBlank()) {
            throw new IllegalArgumentException("a shot of a running order has an id");
        }
        if (importance < 1 || importance > 10) {
            throw new IllegalArgumentException(
                    "shot '" + id + "': importance is 1 to 10, not " + importance);
        }
        if (!(shootSeconds > 0 && shootSeconds <= MOST_SECONDS)) {
            throw new IllegalArgumentException(
                    "shot '" + id + "': takes more than 0 and at most 3600 s, not " + shootSeconds);
        }
        if (!(lensMillimetres > 0)) {
            throw new IllegalArgumentException(
                    "shot '" + id + "': a focal length is more than 0, not " + lensMillimetres);
        }
        people = Set.copyOf(people);
        movedLights = Map.copyOf(movedLights);
    }

    /** The same shot at another pace. */
    Item taking(double seconds) {
        return new Item(
                id,
                safe,
                importance,
                Math.min(MOST_SECONDS, seconds),
                look,
                people,
                arrangement,
                direction,
                framing,
                lensMillimetres,
                distanceMetres,
                cameraHeightMetres,
                movedLights,
                room,
                group,
                splittable,
                job);
    }
}
