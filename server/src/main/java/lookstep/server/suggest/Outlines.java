package lookstep.server.suggest;

import java.util.ArrayList;
import java.util.List;
import lookstep.simulator.model.plates.Cast;

/**
 * The outline of each person, by the definition of {@link
 * lookstep.simulator.model.picture.LinearPicture#separationStops}: the brightest up to four pixels
 * inside against the mean of what is two to four pixels outside, of a picture 720 pixels wide; on
 * smaller ones as many pixels as that comes to, and never the edge pixel alone, which is mixed with
 * what is behind.
 */
final class Outlines {
    private static final double WIDTH = 720;
    private static final int INSIDE = 4;
    private static final int FIRST_OUTSIDE = 2;

    private final Cast cast;
    private final int insides;
    private final int lastOutside;

    Outlines(Cast cast) {
        this.cast = cast;
        insides = Math.max(2, (int) Math.round(INSIDE * cast.width() / WIDTH));
        lastOutside = Math.max(FIRST_OUTSIDE, (int) Math.round(INSIDE * cast.width() / WIDTH));
    }

    /** How many pixels from the edge inwards each entry has. */
    int insides() {
        return insides;
    }

    /** Each entry: pixels from the edge inwards, then those behind. */
    List<int[]> of(int person) {
        List<int[]> found = new ArrayList<>();
        int w = cast.width();
        int margin = Math.max(insides, lastOutside) + 1;
        int[] steps = {-1, 1, -w, w};
        for (int y = margin; y < cast.height() - margin; y++) {
            for (int x = margin; x < w - margin; x++) {
                int p = y * w + x;
                if (!shows(p, person)) {
                    continue;
                }
                for (int step : steps) {
                    if (!shows(p + step, person) && !shows(p + 2 * step, person)) {
                        found.add(entry(p, step, person));
                        break;
                    }
                }
            }
        }
        return found;
    }

    private int[] entry(int p, int step, int person) {
        int[] entry = new int[insides + lastOutside - FIRST_OUTSIDE + 1];
        for (int k = 0; k < insides; k++) {
            entry[k] = shows(p - k * step, person) ? p - k * step : p;
        }
        for (int k = FIRST_OUTSIDE; k <= lastOutside; k++) {
            entry[insides + k - FIRST_OUTSIDE] = p + k * step;
        }
        return entry;
    }

    private boolean shows(int pixel, int person) {
        return cast.figure()[pixel] == person;
    }
}
