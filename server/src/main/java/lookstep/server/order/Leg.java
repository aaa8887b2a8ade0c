package lookstep.server.order;

/**
 * One shot of a running order: what changes before it, and when.
 *
 * @param id the shot
 * @param change what changes before it
 * @param changeSeconds how long that takes, to a thousandth
 * @param shootSeconds how long the shot takes, to a thousandth
 * @param startsAtSeconds when its change begins, from the start of the window that was asked about
 */
public record Leg(
        String id,
        Change change,
        double changeSeconds,
        double shootSeconds,
        double startsAtSeconds) {
    /** When the shot is made. */
    public double endsAtSeconds() {
        return startsAtSeconds + changeSeconds + shootSeconds;
    }
}
