package lookstep.server.web;

/**
 * All that the band's page knows.
 *
 * @param kind always {@code band}
 * @param simulated the pictures are computed
 * @param title what the shoot is called
 * @param frame the newest that has a preview, or null
 */
public record BandMessage(String kind, boolean simulated, String title, BandFrame frame) {
    /** A frame: nothing but the picture. */
    public record BandFrame(int number, String url) {}
}
