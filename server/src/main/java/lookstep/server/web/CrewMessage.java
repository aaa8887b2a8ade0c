package lookstep.server.web;

import com.fasterxml.jackson.annotation.JsonUnwrapped;
import java.util.List;
import java.util.Map;
import lookstep.server.pictured.LookPictures.Origin;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;

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
 * @param take of the current shot: 1, and one more each time it is made again
 * @param shots in the running order
 * @param light what the lights do now, and what can be done to them
 * @param test the light or slot that is looked at alone, or null
 * @param flashing what the plan says of it
 * @param plot the set from above, as it is for the current shot
 * @param links connections to the outside
 * @param frame the newest frame that has a preview, or null
 * @param frames the newest ones, the newest first
 * @param band what the band sees
 * @param cameras what each camera's clock is off by
 * @param canRelease whether the camera is released from here
 * @param byHand what is to be set on the camera by hand, each as a thing to do
 * @param prediction the picture of the current look before it is made
 * @param pages how many pages are open
 * @param notes things to know that are no error
 * @param leftOut shots that the newest re-cut left out
 * @param cut the running order against the time that is left
 * @param people the band, and which pictures there are of them
 * @param solos a round of solos
 * @param jobs whom it is for
 * @param places where the shoot is and may go
 * @param checks what is to be said of the plan
 * @param directions how people stand in the current shot and the next, by the shot's id
 * @param plan how the plan file is
 * @param about what is known of the band
 * @param plates frames with known light
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
        int take,
        List<ShotPart> shots,
        LightPart light,
        TestPart test,
        FlashingPart flashing,
        Plot plot,
        List<LinkPart> links,
        FramePart frame,
        List<FramePart> frames,
        BandPart band,
        List<CameraClockPart> cameras,
        boolean canRelease,
        List<String> byHand,
        PicturePart prediction,
        Pages pages,
        List<String> notes,
        List<LeftOutPart> leftOut,
        CutPart cut,
        List<PeoplePart> people,
        SolosPart solos,
        JobsPart jobs,
        PlacesPart places,
        ChecksPart checks,
        Map<String, DirectionPart> directions,
        PlanPart plan,
        AboutPart about,
        PlatesPart plates) {

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

    /**
     * One shot as planned, how many frames it has, and whether one of them is kept.
     *
     * @param job whom it is for; empty if there are no jobs
     * @param solo whether it is of one person
     * @param startsInSeconds from now until its change begins; null if it is made or left out
     * @param takesSeconds its change and itself
     * @param change what changes before it, in words
     * @param fallsOff whether it ends behind the window
     * @param picture what it will look like
     */
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
            int frames,
            boolean inTheBag,
            String job,
            boolean solo,
            Double startsInSeconds,
            double takesSeconds,
            String change,
            boolean fallsOff,
            PicturePart picture) {}

    /**
     * A look before it is made.
     *
     * @param url of a JPEG; with {@code &size=small} one for lists
     * @param plates true if it is summed from plates, false if it is computed
     * @param brief the same in few words; of plates of another shot, of which
     * @param says which of the two, in words
     */
    public record PicturePart(String url, boolean plates, String brief, String says) {
        static PicturePart of(String url, Origin origin, ShootPlan plan, Shot shot) {
            String brief =
                    !origin.fromPlates()
                            ? "computed"
                            : origin.shot().equals(shot.id())
                                    ? "from plates"
                                    : plan.shot(origin.shot())
                                            .map(s -> "plates of ‘" + s.name() + "’")
                                            .orElse("from plates");
            return new PicturePart(url, origin.fromPlates(), brief, origin.says());
        }
    }

    /** A shot that a re-cut left out, and why. */
    public record LeftOutPart(@JsonUnwrapped ShotPart shot, String why) {}

    /** Camera settings; the time as photographers write it. */
    public record CameraPart(double fNumber, String time, double iso, double kelvin) {}

    /**
     * What the lights do now.
     *
     * @param what work light, look, test or plate
     * @param look the look that is on, null before the first shot
     * @param says the same in words
     * @param lights in the rig's order
     * @param open true if something is changed for this shot and not kept in its look
     * @param kept true if something is changed in the look for good
     * @param changes all that is otherwise than planned, in words
     * @param undo the change that would be taken back next, in words; null if there is none
     * @param camera what the camera is to be set to
     * @param cameraStays true if the lights make up for a camera that is not set as the look says
     * @param steady colour temperatures, kelvin, at which the camera could stay instead
     * @param notes what the lights cannot do as asked
     */
    public record LightPart(
            String what,
            String look,
            String says,
            List<LampPart> lights,
            boolean open,
            boolean kept,
            List<String> changes,
            String undo,
            CameraPart camera,
            boolean cameraStays,
            List<Double> steady,
            List<String> notes) {}

    /**
     * One light as it is now.
     *
     * @param level in words: full, 3000 K; a stop under, 4300 K; off
     * @param measured in words: 420 lx, 0.7 under the key; empty if it does not reach the people
     * @param limits how far it can go, in words: from 4.2 under to 1.3 over the key
     * @param changed how it is otherwise than planned, in words; empty if it is not
     * @param can presses that do something now: brighter, darker, warmer, colder, off, on
     */
    public record LampPart(
            String name,
            boolean on,
            String level,
            String measured,
            String limits,
            String changed,
            List<String> can) {}

    /**
     * One light or slot alone.
     *
     * @param light whose, empty for a slot that is no light's
     * @param slot 0 for the whole light
     * @param says what is on
     * @param expect what should be seen
     * @param others what is wrong if something else is seen
     */
    public record TestPart(
            String light,
            int universe,
            int slot,
            String says,
            String expect,
            List<OtherPart> others) {}

    /** Seen instead, and why. */
    public record OtherPart(String seen, String why) {}

    /** Whether the plan allows it, and whether everybody was told. */
    public record FlashingPart(boolean allowed, boolean acknowledged) {}

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

    /**
     * A frame.
     *
     * @param shot its shot's id, null before the first
     * @param byHand somebody said which shot it is of
     * @param takenAt when, by this computer's clock, such as 21:04:07
     * @param says its exposure, and whether it is a plate
     * @param mark none, kept or out
     * @param raw whether a raw file came with it
     * @param remarks what is to be said of it, the most important first
     * @param copy how its copy is, in words; empty if there is to be none
     * @param safe whether all of its files lie in their second place
     */
    public record FramePart(
            int number,
            String url,
            String shot,
            boolean byHand,
            List<String> people,
            String takenAt,
            String says,
            String mark,
            boolean raw,
            List<RemarkPart> remarks,
            String copy,
            boolean safe) {}

    /** One thing about a frame; {@code weight} is good, look or wrong. */
    public record RemarkPart(String weight, String says) {}

    /**
     * What the band sees.
     *
     * @param showing all, kept or hold
     * @param frame its number, 0 for none
     */
    public record BandPart(String showing, int frame) {}

    /** A camera's clock against this computer's, in words. */
    public record CameraClockPart(String camera, String says) {}

    /** Open pages. */
    public record Pages(int band, int crew) {}
}
