package lookstep.server.suggest;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;

/**
 * The recipes that a rig is tried with. Those with few lights on are listed whole as long as there
 * are few enough of them; of the others as many as are wanted are drawn, by a fixed seed, so that
 * the same rig always has the same list.
 */
final class Recipes {
    /** Stops of a light against the strongest: the steps of common lighting ratios. */
    static final int[] STOPS = {0, -1, -2};

    /** More hues than two in one picture read as a fairground (figure of our own). */
    private static final int MOST_HUES = 2;

    private static final int TRIES = 6;

    /**
     * What was listed.
     *
     * @param possible how many there are, by the steps of this list
     * @param whole up to how many lights on all of them are in it
     */
    record Listed(List<Recipe> recipes, double possible, int whole) {}

    private final int[][][] hues;
    private final int lights;

    /**
     * @param hues for each white balance and each light, the hue of each of its colours, -1 for a
     *     white
     */
    Recipes(int[][][] hues) {
        this.hues = hues;
        this.lights = hues[0].length;
    }

    /**
     * About as many as are wanted.
     *
     * @param must a light that has to be on; -1 for any
     */
    Listed listed(int most, int must, long seed) {
        List<Recipe> all = new ArrayList<>();
        double possible = 0;
        int whole = 0;
        for (int on = 1; on <= lights; on++) {
            List<int[]> subsets = subsets(on, must);
            double size = 0;
            for (int[] subset : subsets) {
                size += size(subset);
            }
            possible += size;
            int share = (most - all.size()) / (lights - on + 1);
            if (size <= share) {
                subsets.forEach(subset -> every(subset, all));
                whole = whole == on - 1 ? on : whole;
            } else {
                draw(subsets, Math.max(0, share), new Random(seed * 31 + on), all);
            }
        }
        return new Listed(all, possible, whole);
    }

    private List<int[]> subsets(int on, int must) {
        List<int[]> found = new ArrayList<>();
        for (int bits = 1; bits < 1 << lights; bits++) {
            if (Integer.bitCount(bits) == on && (must < 0 || (bits >> must & 1) == 1)) {
                int[] subset = new int[on];
                int n = 0;
                for (int l = 0; l < lights; l++) {
                    if ((bits >> l & 1) == 1) {
                        subset[n++] = l;
                    }
                }
                found.add(subset);
            }
        }
        return found;
    }

    private double size(int[] subset) {
        double sum = 0;
        for (int[][] of : hues) {
            double n = patterns(subset.length);
            for (int l : subset) {
                n *= of[l].length;
            }
            sum += n;
        }
        return sum;
    }

    /** Ways to give stops with at least one at the top. */
    private static double patterns(int on) {
        return Math.pow(STOPS.length, on) - Math.pow(STOPS.length - 1.0, on);
    }

    private void every(int[] subset, List<Recipe> into) {
        for (int camera = 0; camera < hues.length; camera++) {
            every(subset, 0, blank(camera), into);
        }
    }

    private void every(int[] subset, int at, Recipe begun, List<Recipe> into) {
        if (at == subset.length) {
            add(begun, into);
            return;
        }
        for (int c = 0; c < hues[begun.camera()][subset[at]].length; c++) {
            for (int stops : STOPS) {
                Recipe next =
                        new Recipe(begun.camera(), begun.colour().clone(), begun.stops().clone());
                next.colour()[subset[at]] = c;
                next.stops()[subset[at]] = stops;
                every(subset, at + 1, next, into);
            }
        }
    }

    private Recipe blank(int camera) {
        int[] off = new int[lights];
        Arrays.fill(off, -1);
        return new Recipe(camera, off, new int[lights]);
    }

    private void draw(List<int[]> subsets, int wanted, Random random, List<Recipe> into) {
        Set<List<Integer>> known = new HashSet<>();
        int full = into.size() + wanted;
        for (int i = 0; i < wanted * TRIES && into.size() < full; i++) {
            int[] subset = subsets.get(random.nextInt(subsets.size()));
            Recipe one = blank(random.nextInt(hues.length));
            List<Integer> code = new ArrayList<>(List.of(one.camera()));
            int top = random.nextInt(subset.length);
            for (int j = 0; j < subset.length; j++) {
                int l = subset[j];
                one.colour()[l] = random.nextInt(hues[one.camera()][l].length);
                one.stops()[l] = j == top ? 0 : STOPS[random.nextInt(STOPS.length)];
                code.addAll(List.of(l, one.colour()[l], one.stops()[l]));
            }
            if (known.add(code)) {
                add(one, into);
            }
        }
    }

    private void add(Recipe one, List<Recipe> into) {
        Set<Integer> seen = new HashSet<>();
        boolean top = false;
        for (int l = 0; l < lights; l++) {
            if (one.on(l)) {
                top |= one.stops()[l] == 0;
                int hue = hues[one.camera()][l][one.colour()[l]];
                if (hue >= 0) {
                    seen.add(hue);
                }
            }
        }
        if (top && seen.size() <= MOST_HUES) {
            into.add(one);
        }
    }
}
