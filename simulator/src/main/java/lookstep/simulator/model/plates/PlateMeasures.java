package lookstep.simulator.model.plates;

import java.util.ArrayList;
import java.util.List;
import java.util.function.IntPredicate;
import java.util.function.IntToDoubleFunction;
import lookstep.simulator.model.colour.Srgb;
import lookstep.simulator.model.picture.Outline;

/**
 * What can be counted in a mix of plates. Stops over white say how bright a thing is in the
 * picture; stops over mid grey (18 %, which a metered exposure shows as 0.18) are what
 * photographers say. How much light falls on a face is not known without its reflectance: a fair
 * one of 0.36 in light as metered lies one stop over mid grey, a dark one of 0.09 one stop under.
 *
 * @param people from the left
 * @param backgroundStops mean luminance of all that is not people, stops over mid grey; -10 is the
 *     least that is told
 * @param peopleOverBackgroundStops mean luminance of the people over that of the rest
 * @param houseOnPeople share of the house in the light from the people, 0..1
 * @param houseOnBackground the same of the rest
 * @param lightsOnPeople share of each light in the light from the people
 * @param lightsOnBackground the same of the rest
 */
public record PlateMeasures(
        List<Person> people,
        double backgroundStops,
        double peopleOverBackgroundStops,
        double houseOnPeople,
        double houseOnBackground,
        List<Double> lightsOnPeople,
        List<Double> lightsOnBackground) {
    private static final double MID_GREY = 0.18;

    /** Ten stops under white there is noise alone. */
    private static final double BLACK = 1.0 / 1024;

    public PlateMeasures {
        people = List.copyOf(people);
        lightsOnPeople = List.copyOf(lightsOnPeople);
        lightsOnBackground = List.copyOf(lightsOnBackground);
    }

    /**
     * One person.
     *
     * @param skinStopsOverWhite mean luminance of the skin in stops over white, so below 0; NaN if
     *     no skin is seen
     * @param skinStopsOverGrey the same over mid grey of 0.18
     * @param burntShare of the skin's pixels, where a channel is white or more
     * @param separationStops as {@link Outline} measures it; NaN if no edge is seen
     * @param outlineStops the same whichever way, 0 or more
     * @param lights share of each light in the light from the skin, 0..1
     * @param house share of the house in it
     */
    public record Person(
            double skinStopsOverWhite,
            double skinStopsOverGrey,
            double burntShare,
            double separationStops,
            double outlineStops,
            List<Double> lights,
            double house) {
        public Person {
            lights = List.copyOf(lights);
        }
    }

    /**
     * Counts.
     *
     * @throws IllegalArgumentException if plates and cast differ in size
     */
    public static PlateMeasures of(LinearPlates plates, Cast cast, Lit lit) {
        if (plates.width() != cast.width() || plates.height() != cast.height()) {
            throw new IllegalArgumentException(
                    "plates of %d x %d and a cast of %d x %d pixels"
                            .formatted(
                                    plates.width(), plates.height(), cast.width(), cast.height()));
        }
        float[] all = lit.picture(plates);
        List<float[]> parts = lit.parts(plates);
        int people = cast.people();
        List<Person> each = new ArrayList<>();
        for (int f = 0; f < people; f++) {
            each.add(person(plates, cast, all, parts, f));
        }
        Shares onPeople = Shares.of(all, parts, p -> cast.figure()[p] >= 0);
        Shares onRest = Shares.of(all, parts, p -> cast.figure()[p] < 0);
        return new PlateMeasures(
                each,
                stops(onRest.mean, MID_GREY),
                stops(onPeople.mean, Math.max(BLACK, onRest.mean)),
                onPeople.house,
                onRest.house,
                onPeople.lights,
                onRest.lights);
    }

    private static Person person(
            LinearPlates plates, Cast cast, float[] all, List<float[]> parts, int f) {
        Shares skin = Shares.of(all, parts, p -> cast.figure()[p] == f && cast.skin()[p]);
        int burnt = 0;
        for (int p = 0; p < cast.figure().length; p++) {
            boolean over = all[p * 3] >= 1 || all[p * 3 + 1] >= 1 || all[p * 3 + 2] >= 1;
            burnt += cast.figure()[p] == f && cast.skin()[p] && over ? 1 : 0;
        }
        IntPredicate shows = p -> cast.figure()[p] == f;
        IntToDoubleFunction light = p -> luminance(all, p);
        double separation = Outline.separationStops(plates.width(), plates.height(), shows, light);
        double size = Outline.sizeStops(plates.width(), plates.height(), shows, light);
        return new Person(
                skin.count == 0 ? Double.NaN : stops(skin.mean, 1),
                skin.count == 0 ? Double.NaN : stops(skin.mean, MID_GREY),
                skin.count == 0 ? 0 : burnt / (double) skin.count,
                separation,
                size,
                skin.lights,
                skin.house);
    }

    private record Shares(int count, double mean, double house, List<Double> lights) {
        static Shares of(float[] all, List<float[]> parts, IntPredicate counts) {
            double sum = 0;
            double[] each = new double[parts.size()];
            int n = 0;
            for (int p = 0; p < all.length / 3; p++) {
                if (counts.test(p)) {
                    sum += luminance(all, p);
                    for (int s = 0; s < each.length; s++) {
                        each[s] += luminance(parts.get(s), p);
                    }
                    n++;
                }
            }
            List<Double> shares = new ArrayList<>();
            for (double s : each) {
                shares.add(sum > 0 ? s / sum : 0);
            }
            return new Shares(
                    n, sum / Math.max(1, n), shares.get(0), shares.subList(1, shares.size()));
        }
    }

    private static double stops(double light, double over) {
        return Math.log(Math.max(BLACK, light) / over) / Math.log(2);
    }

    private static double luminance(float[] rgb, int p) {
        return Srgb.luminance(rgb[p * 3], rgb[p * 3 + 1], rgb[p * 3 + 2]);
    }
}
