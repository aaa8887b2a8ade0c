package lookstep.server.plan;

import java.util.List;

/**
 * One plan file, read and found good.
 *
 * @param title what the shoot is called on the pages
 * @param place where it is
 * @param house the light that is there already
 * @param windowSeconds how long the people are on the set, above 0
 * @param people everybody, in the order of the file; names are unique
 * @param rig the lights as placed; names are unique and no two share a slot
 * @param looks names are unique
 * @param workLight what people set up in
 * @param flashingAllowed true if the plan lifts the limit on opposing changes of light, once
 *     everybody was told
 * @param shots in the running order; the safe shot is the first
 */
public record ShootPlan(
        String title,
        Place place,
        House house,
        double windowSeconds,
        List<Person> people,
        List<Light> rig,
        List<Look> looks,
        WorkLight workLight,
        boolean flashingAllowed,
        List<Shot> shots) {

    /** With the usual work light, and no flashing. */
    public ShootPlan(
            String title,
            Place place,
            House house,
            double windowSeconds,
            List<Person> people,
            List<Light> rig,
            List<Look> looks,
            List<Shot> shots) {
        this(title, place, house, windowSeconds, people, rig, looks, WorkLight.USUAL, false, shots);
    }

    public Look look(String name) {
        return looks.stream().filter(l -> l.name().equals(name)).findFirst().orElseThrow();
    }

    public Light light(String name) {
        return rig.stream().filter(l -> l.name().equals(name)).findFirst().orElseThrow();
    }

    public Person person(String name) {
        return people.stream().filter(p -> p.name().equals(name)).findFirst().orElseThrow();
    }
}
