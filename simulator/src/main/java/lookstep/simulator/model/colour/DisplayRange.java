package lookstep.simulator.model.colour;

/**
 * Brings a colour that a screen cannot show to one that it can, and keeps its hue. Clipping each
 * channel alone would turn a pale blue into cyan.
 */
public final class DisplayRange {
    /** From here on, in stops over white, a light loses its colour on the sensor. */
    private static final double BLEACH_FROM = 2;

    private static final double BLEACH_STOPS = 3;

    private DisplayRange() {}

    /**
     * In place: a negative channel is mixed with grey of the same luminance until it is 0. A colour
     * over 1 is scaled by its largest channel, and only beyond two stops over white fades to white
     * as an overfull sensor does.
     *
     * @param rgb linear red, green, blue, one after another; afterwards each within 0..1
     * @param at where the red one is
     */
    public static void fit(float[] rgb, int at) {
        float r = rgb[at];
        float g = rgb[at + 1];
        float b = rgb[at + 2];
        float least = Math.min(r, Math.min(g, b));
        float most = Math.max(r, Math.max(g, b));
        if (least < 0) {
            float grey = (float) Srgb.luminance(r, g, b);
            float keep = grey <= 0 ? 0 : grey / (grey - least);
            r = Math.max(0, grey + (r - grey) * keep);
            g = Math.max(0, grey + (g - grey) * keep);
            b = Math.max(0, grey + (b - grey) * keep);
            most = Math.max(r, Math.max(g, b));
        } else if (most <= 1) {
            return;
        }
        if (most > 1) {
            double over = Math.log(most) / Math.log(2);
            float bleach = (float) Math.min(1, Math.max(0, (over - BLEACH_FROM) / BLEACH_STOPS));
            r = r / most * (1 - bleach) + bleach;
            g = g / most * (1 - bleach) + bleach;
            b = b / most * (1 - bleach) + bleach;
        }
        rgb[at] = r;
        rgb[at + 1] = g;
        rgb[at + 2] = b;
    }
}
