package lookstep.server.order;

/** Times are added up in whole milliseconds, so that sums do not depend on their order. */
final class Milliseconds {
    private Milliseconds() {}

    static int of(double seconds) {
        return (int) Math.round(seconds * 1000);
    }

    static double seconds(long milliseconds) {
        return milliseconds / 1000.0;
    }

    /** A window of any length; longer than a week is a week. */
    static int window(double seconds) {
        if (!(seconds >= 0)) {
            throw new IllegalArgumentException("a window is 0 s or more, not " + seconds);
        }
        return (int) Math.floor(Math.min(seconds, 604_800) * 1000 + 1e-6);
    }
}
