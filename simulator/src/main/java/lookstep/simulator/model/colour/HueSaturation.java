package lookstep.simulator.model.colour;

/**
 * Hue and saturation of HSV, taken in linear sRGB: the brightest of red, green and blue is the
 * value, and saturation is what the darkest lacks of it.
 *
 * @param hueDegrees 0 red, 120 green, 240 blue; 0 for white
 * @param saturation 0..1
 */
public record HueSaturation(double hueDegrees, double saturation) {
    /** Of linear red, green, blue; what is below 0 counts as 0. White if there is no light. */
    public static HueSaturation of(double[] linearRgb) {
        double r = Math.max(0, linearRgb[0]);
        double g = Math.max(0, linearRgb[1]);
        double b = Math.max(0, linearRgb[2]);
        double most = Math.max(r, Math.max(g, b));
        double span = most - Math.min(r, Math.min(g, b));
        if (span <= 0) {
            return new HueSaturation(0, 0);
        }
        double sixth =
                most == r ? (g - b) / span : most == g ? 2 + (b - r) / span : 4 + (r - g) / span;
        return new HueSaturation((sixth * 60 + 360) % 360, span / most);
    }

    /** Linear red, green, blue; the brightest is 1. */
    public double[] linearRgb() {
        return new double[] {channel(0), channel(240), channel(120)};
    }

    /** Full within 60 degrees of the channel's own hue, then down to nothing at 120. */
    private double channel(double turn) {
        double away = ((hueDegrees + turn) % 360 + 360) % 360;
        double off = Math.min(away, 360 - away) / 60;
        return 1 - saturation * Math.min(1, Math.max(0, off - 1));
    }
}
