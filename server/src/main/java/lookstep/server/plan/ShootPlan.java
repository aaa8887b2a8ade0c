package lookstep.server.plan;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

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
 * @param shots in the order of the file; the safe shot is the first
 * @param around places, times, jobs: what surrounds the pictures
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
        List<Shot> shots,
        Circumstances around) {

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
        this(
                title,
                place,
                house,
                windowSeconds,
                people,
                rig,
                looks,
                WorkLight.USUAL,
                false,
                shots,
                Circumstances.NONE);
    }

    /** All places of the shoot, at least the one that the plan is at. */
    public List<Location> locations() {
        return around.locations().isEmpty()
                ? List.of(Location.of(place, house, rig))
                : around.locations();
    }

    /** The place that this plan is at. */
    public Location location() {
        return locations().stream()
                .filter(l -> l.name().equals(place.name()))
                .findFirst()
                .orElseThrow();
    }

    /**
     * The same shoot at another of its places: with its room, its light and the lights that stand
     * there. What lights that are not there would do goes from the looks; a shot whose look has no
     * key there cannot be made and is left out, as is a look without any light.
     *
     * @param name the place's; empty for the first
     * @throws java.util.NoSuchElementException if there is no such place
     */
    public ShootPlan at(String name) {
        Location to =
                name.isEmpty()
                        ? locations().get(0)
                        : locations().stream()
                                .filter(l -> l.name().equals(name))
                                .findFirst()
                                .orElseThrow();
        Set<String> there = to.rig().stream().map(Light::name).collect(Collectors.toSet());
        List<Look> possible =
                looks.stream()
                        .filter(l -> there.contains(l.key()))
                        .map(l -> l.with(there))
                        .toList();
        Set<String> names = possible.stream().map(Look::name).collect(Collectors.toSet());
        return new ShootPlan(
                title,
                to.place(),
                to.house(),
                windowSeconds,
                people,
                to.rig(),
                possible,
                workLight,
                flashingAllowed,
                shots.stream().filter(s -> names.contains(s.look())).toList(),
                around);
    }

    /** The same with these shots. */
    public ShootPlan withShots(List<Shot> others) {
        return new ShootPlan(
                title,
                place,
                house,
                windowSeconds,
                people,
                rig,
                looks,
                workLight,
                flashingAllowed,
                others,
                around);
    }

    /** The same with the rig as it stands for a look; this plan if nothing is moved for it. */
    public ShootPlan placed(Look look) {
        if (look.moved().isEmpty()) {
            return this;
        }
        return new ShootPlan(
                title,
                place,
                house,
                windowSeconds,
                people,
                rig.stream().map(l -> l.placed(look.moved().get(l.name()))).toList(),
                looks,
                workLight,
                flashingAllowed,
                shots,
                around);
    }

    /** The shot of this id. */
    public Optional<Shot> shot(String id) {
        return shots.stream().filter(s -> s.id().equals(id)).findFirst();
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
