package lookstep.server.look;

/**
 * What one light does otherwise than planned.
 *
 * @param stops brighter, or darker if below 0
 * @param mired warmer, or colder if below 0
 * @param power switched on or off on the set
 */
public record Nudge(double stops, double mired, Power power) {
    public static final Nudge NONE = new Nudge(0, 0, Power.AS_PLANNED);

    /** Whether a light takes part in the look. */
    public enum Power {
        AS_PLANNED,
        OFF,
        /**
         * One that the look leaves off: it comes in a stop under the key, in the camera's white.
         */
        ON
    }

    public Nudge brighter(double byStops) {
        return new Nudge(rounded(stops + byStops), mired, power);
    }

    public Nudge warmer(double byMired) {
        return new Nudge(stops, rounded(mired + byMired), power);
    }

    public Nudge power(Power next) {
        return new Nudge(stops, mired, next);
    }

    /** Three thirds up and three down are nothing at all. */
    private static double rounded(double value) {
        double near = Math.rint(value * 1e6) / 1e6;
        return near == 0 ? 0 : near;
    }
}
