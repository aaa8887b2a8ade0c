package lookstep.server.web;

import java.util.List;

/**
 * All that the crew's pages (next, set) show, in one message; the newest replaces the one before.
 * Nulls are sent.
 *
 * @param kind always {@code crew}
 * @param revision how many events made this state
 * @param simulated no real light, no real camera
 * @param title what the shoot is called
 * @param clock the window's clock
 * @param position in the running order
 * @param current the current shot's id, null before the first
 * @param coming the next shot's id, null at the last
 * @param shots in the running order
 * @param plot the set from above, as it is for the current shot
 * @param links connections to the outside
 * @param frame the newest frame that has a preview, or null
 * @param prediction where the computed picture of the current look is
 * @param pages how many pages are open
 * @param notes things to know that are no error
 */
public record CrewMessage(
        String kind,
        long revision,
        boolean simulated,
        String title,
        ClockPart clock,
        Position position,
        String current,
        String coming,
        List<ShotPart> shots,
        Plot plot,
        List<LinkPart> links,
        FramePart frame,
        String prediction,
        Pages pages,
        List<String> notes) {

    /**
     * The window's clock.
     *
     * @param state ready, running or paused
     * @param leftSeconds may be below 0
     * @param atEpochMillis when this was so, by the server's clock
     */
    public record ClockPart(
            String state, double lengthSeconds, double leftSeconds, long atEpochMillis) {}

    /** Place in the running order: 0 is before the first shot. */
    public record Position(int at, int of) {}

    /** One shot as planned, and how many frames it has. */
    public record ShotPart(
            String id,
            String name,
            boolean safe,
            String look,
            List<String> people,
            String arrangement,
            List<String> say,
            String framing,
            int importance,
            double lensMillimetres,
            double distanceMetres,
            CameraPart camera,
            int frames) {}

    /** Camera settings; the time as photographers write it. */
    public record CameraPart(double fNumber, String time, double iso, double kelvin) {}

    /** From above: metres, x to the right and y away from the camera. */
    public record Plot(
            PlacePart place, PlotCamera camera, List<PlotPerson> people, List<PlotLight> lights) {}

    /** The room. */
    public record PlacePart(
            String name, double widthMetres, double depthMetres, double backgroundMetres) {}

    /** Where the camera stands. */
    public record PlotCamera(double x, double y, double lensMillimetres) {}

    /** Where somebody stands. */
    public record PlotPerson(String name, double x, double y) {}

    /**
     * One light and what it does in the look that is on; {@code colour} is as the camera sees it.
     */
    public record PlotLight(
            String name,
            String fixture,
            String address,
            double x,
            double y,
            double z,
            double aimX,
            double aimY,
            double beamDegrees,
            boolean on,
            String colour,
            String says) {}

    /** A connection to the outside; {@code state} is up or down. */
    public record LinkPart(String name, String state, String says) {}

    /** A frame. */
    public record FramePart(int number, String url, String shot, String says) {}

    /** Open pages. */
    public record Pages(int band, int crew) {}
}
