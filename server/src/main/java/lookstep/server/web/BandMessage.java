package lookstep.server.web;

/**
 * All that the band's page knows.
 *
 * @param kind always {@code band}
 * @param simulated the pictures are computed
 * @param title what the shoot is called
 * @param frame what they are to see, or null
 */
public record BandMessage(String kind, boolean simulated, String title, BandFrame frame) {
    /** Nothing but the picture; number 0 is one that is still on its way. */
    public record BandFrame(int number, String url) {}
}
