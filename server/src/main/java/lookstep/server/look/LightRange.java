package lookstep.server.look;

/**
 * What one light can do at its colour, at the subject of {@link LookLevels#SUBJECT}.
 *
 * @param lux what it gives now; 0 if it is off
 * @param leastLux the smallest light above dark that its slots can set; on paper, a driver may stop
 *     higher up
 * @param mostLux at full; 0 if it does not reach the people
 */
public record LightRange(double lux, double leastLux, double mostLux) {
    /** Stops from one illuminance to the other, both in lux; infinite or NaN if one is 0. */
    public static double stops(double fromLux, double toLux) {
        return Math.log(toLux / fromLux) / Math.log(2);
    }
}
