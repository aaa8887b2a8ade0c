package lookstep.simulator.model.plates;

import java.util.ArrayList;
import java.util.List;

/**
 * Lays a later frame onto the plates: how much of the house and of each light is in it, against
 * what should be. A light that was dimmed still has its pattern, only weaker. One that gives
 * another colour fits if each channel has a weight of its own; one that was moved or turned fits
 * better if its pattern may be lifted and lowered softly across the picture. Each is tried for each
 * light, and the one that explains most is believed. A moved camera looks like everything moved:
 * ask {@link Registration} first.
 */
public final class PlateFit {
    static final int LEAST_PIXELS = 40;
    private static final int MOST_PIXELS = 2500;

    /** Burnt from here on: nothing is to be learnt. */
    private static final double BURNT = 0.95;

    private PlateFit() {}

    /** What has become of the house or of a light. */
    public enum Change {
        /** As it should be. */
        NONE,
        /** Its pattern fits, but it is brighter or darker. */
        LEVEL,
        /** Its pattern fits, but its colour is another. */
        COLOUR,
        /** Its pattern does not fit: it was moved, turned, or something stands before it. */
        PATTERN,
        /** It should be off, and is not. */
        LIT,
        /** It brings too little, or is too much like another, to be told. */
        UNKNOWN
    }

    /**
     * Of the house or a light.
     *
     * @param stops brighter than it should be, -6 is off; of a light that should be off: over its
     *     full light. What {@link Found#exposureStops} says is taken out.
     * @param redStops how much redder against green, stops; 0 unless the change is its colour
     * @param blueStops how much bluer against green
     * @param spreadStops how much its pattern is lifted and lowered, standard deviation in stops; 0
     *     unless the change is its pattern
     * @param certainty 0 nothing is sure, 1 sure
     */
    public record Source(
            Change change,
            double stops,
            double redStops,
            double blueStops,
            double spreadStops,
            double certainty) {}

    /**
     * The whole frame.
     *
     * @param exposureStops by how much everything is brighter alike, 0 if it is not alike
     * @param residualShare of the frame's light that is not explained
     */
    public record Found(
            Source house, List<Source> lights, double exposureStops, double residualShare) {
        public Found {
            lights = List.copyOf(lights);
        }
    }

    /**
     * Fits a frame.
     *
     * @param frame linear red, green, blue at the camera settings of {@code should}, sized as the
     *     plates
     * @param should how it should be lit
     * @param allowed pixels that count, rows from the top; leave out people, who move
     * @throws IllegalArgumentException if the sizes differ, or hardly any pixel is allowed and not
     *     burnt
     */
    public static Found of(float[] frame, LinearPlates plates, Lit should, boolean[] allowed) {
        int n = plates.width() * plates.height();
        if (frame.length != 3 * n || allowed.length != n) {
            throw new IllegalArgumentException(
                    "a frame of %d values and a mask of %d for plates of %d x %d pixels"
                            .formatted(
                                    frame.length, allowed.length, plates.width(), plates.height()));
        }
        List<float[]> parts = new ArrayList<>(should.parts(plates));
        boolean[] on = new boolean[parts.size()];
        on[0] = should.house() > 0;
        for (int l = 0; l < should.lights(); l++) {
            on[l + 1] = should.on(l);
            if (!on[l + 1]) {
                parts.set(l + 1, should.full(plates, l));
            }
        }
        int[] pixels = pixels(frame, parts, on, allowed);
        return new FrameFit(frame, parts, on, pixels, plates.width(), plates.height()).found();
    }

    private static int[] pixels(
            float[] frame, List<float[]> parts, boolean[] on, boolean[] allowed) {
        int[] good = new int[allowed.length];
        int n = 0;
        for (int p = 0; p < allowed.length; p++) {
            boolean fits = allowed[p];
            for (int c = 0; c < 3 && fits; c++) {
                double sum = 0;
                for (int s = 0; s < on.length; s++) {
                    sum += on[s] ? parts.get(s)[p * 3 + c] : 0;
                }
                fits = frame[p * 3 + c] < BURNT && sum < BURNT;
            }
            if (fits) {
                good[n++] = p;
            }
        }
        if (n < LEAST_PIXELS) {
            throw new IllegalArgumentException(
                    "only %d pixels are allowed and not burnt: %d are the least"
                            .formatted(n, LEAST_PIXELS));
        }
        int[] chosen = new int[Math.min(n, MOST_PIXELS)];
        for (int i = 0; i < chosen.length; i++) {
            chosen[i] = good[(int) ((long) i * n / chosen.length)];
        }
        return chosen;
    }
}
