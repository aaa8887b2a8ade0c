package lookstep.server.web;

import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiFunction;
import java.util.function.Function;
import java.util.stream.IntStream;
import lookstep.server.lighting.Lighting;
import lookstep.server.lighting.Lightings;
import lookstep.server.lighting.Shown;
import lookstep.server.live.CameraClock;
import lookstep.server.live.Clock;
import lookstep.server.live.Frame;
import lookstep.server.live.Link;
import lookstep.server.live.LiveState;
import lookstep.server.look.Adjustment;
import lookstep.server.look.Photometry;
import lookstep.server.order.Variety;
import lookstep.server.pictured.LookPictures.Origin;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.PlanWords;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plates.PlatesNow;
import lookstep.server.web.BandMessage.BandFrame;
import lookstep.server.web.CrewMessage.CameraPart;
import lookstep.server.web.CrewMessage.ClockPart;
import lookstep.server.web.CrewMessage.FlashingPart;
import lookstep.server.web.CrewMessage.FramePart;
import lookstep.server.web.CrewMessage.LeftOutPart;
import lookstep.server.web.CrewMessage.LinkPart;
import lookstep.server.web.CrewMessage.Pages;
import lookstep.server.web.CrewMessage.PicturePart;
import lookstep.server.web.CrewMessage.PlacePart;
import lookstep.server.web.CrewMessage.Plot;
import lookstep.server.web.CrewMessage.PlotCamera;
import lookstep.server.web.CrewMessage.PlotLight;
import lookstep.server.web.CrewMessage.PlotPerson;
import lookstep.server.web.CrewMessage.Position;
import lookstep.server.web.CrewMessage.ShotPart;
import lookstep.server.window.BestOrders;
import lookstep.server.window.SolosRound;
import lookstep.server.window.WindowNow;
import lookstep.server.window.WindowView;
import lookstep.server.window.WindowView.ShotTime;
import lookstep.simulator.model.colour.Srgb;
import lookstep.simulator.model.colour.WhiteBalance;
import lookstep.simulator.model.colour.Xyz;
import lookstep.simulator.model.scene.Positions;
import lookstep.simulator.model.space.Vec3;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Plan and state become the messages of the pages. Pure. */
public final class Messages {
    private static final Logger LOG = LoggerFactory.getLogger(Messages.class);

    private final Lightings lightings;
    private final boolean simulated;
    private final Function<Lighting, List<String>> notes;
    private final FrameParts frameParts;
    private final ZoneId zone;
    private final BestOrders bestOrders = new BestOrders();

    /**
     * What the pages show beside plan and state.
     *
     * @param newest the newest frame that can be shown
     * @param seen the frame that the band sees
     * @param url where a frame's picture is
     * @param copying how the copies of frames are that are not all made, in words
     * @param canRelease whether the camera is released from here
     * @param byHand what is to be set on the camera by hand
     * @param links how the connections are
     * @param pages how many are open
     * @param variety how alike the shots of a plan are
     * @param checks what is to be said of the plan
     * @param plan how its file is
     * @param origin where the picture of a look comes from
     * @param plates how the plates are
     * @param nowEpochMillis when
     */
    public record Around(
            Optional<Frame> newest,
            Optional<Frame> seen,
            Function<Frame, String> url,
            Map<Integer, String> copying,
            boolean canRelease,
            List<String> byHand,
            List<Link> links,
            Pages pages,
            Function<ShootPlan, Variety> variety,
            ChecksPart checks,
            PlanPart plan,
            BiFunction<ShootPlan, Look, Origin> origin,
            PlatesNow plates,
            long nowEpochMillis) {}

    /**
     * @param frameParts frames in words
     * @param notes things to know that hold as long as the plan does
     * @param zone where the shoot is
     */
    public Messages(
            Lightings lightings,
            FrameParts frameParts,
            boolean simulated,
            Function<Lighting, List<String>> notes,
            ZoneId zone) {
        this.zone = zone;
        this.lightings = lightings;
        this.frameParts = frameParts;
        this.simulated = simulated;
        this.notes = notes;
    }

    /** What the band sees. */
    public BandMessage band(Optional<BandFrame> shown) {
        return new BandMessage("band", simulated, lightings.read().title(), shown.orElse(null));
    }

    /** What the crew sees. */
    public CrewMessage crew(LiveState state, Around around) {
        Lighting lighting = lightings.of(state);
        ShootPlan plan = lighting.plan();
        LightParts lightParts = new LightParts(lighting);
        int at = state.position();
        List<Shot> shots = shots(plan, state);
        WindowView view = window(plan, state, around);
        Shot on = lighting.shot(state);
        Shown shown = lighting.shown(state);
        CameraClock.All clocks = CameraClock.of(state.frames());
        return new CrewMessage(
                "crew",
                state.revision(),
                simulated,
                plan.title(),
                clock(state, plan, around.nowEpochMillis()),
                new Position(at, shots.size()),
                at == 0 ? null : on.id(),
                at >= shots.size() ? null : shots.get(at).id(),
                state.take(),
                shots.stream().map(s -> shot(s, state, lighting, view, around)).toList(),
                lightParts.light(state, shown),
                lightParts.test(state, shown),
                new FlashingPart(plan.flashingAllowed(), state.flashingAcknowledged()),
                plot(plan, lightParts, on, shown),
                around.links().stream()
                        .map(l -> new LinkPart(l.name(), l.up() ? "up" : "down", l.says()))
                        .toList(),
                around.newest()
                        .map(f -> frameParts.part(f, around.url(), clocks, around.copying()))
                        .orElse(null),
                frameParts.newest(state.frames(), around.url(), clocks, around.copying()),
                FrameParts.band(state, around.seen()),
                frameParts.clocks(clocks, around.nowEpochMillis()),
                around.canRelease(),
                around.byHand(),
                picture(plan, on, shown.look(), shown.adjustment(), state, around),
                around.pages(),
                notes.apply(lighting),
                leftOut(state, lighting, view, around),
                CutPart.of(plan, state, view),
                PeoplePart.of(plan, state),
                solos(plan, state),
                JobsPart.of(plan, state),
                PlacesPart.of(
                        lightings.read(),
                        state,
                        LocalTime.ofInstant(Instant.ofEpochMilli(around.nowEpochMillis()), zone)),
                around.checks(),
                DirectionPart.of(state, lighting, shots),
                around.plan(),
                AboutPart.of(plan.around().band()),
                PlatesPart.of(state, lighting, around.plates(), around.nowEpochMillis(), zone));
    }

    /** Without it, pages still have light, shots and the key. */
    private WindowView window(ShootPlan plan, LiveState state, Around around) {
        try {
            return WindowView.of(
                    WindowNow.of(
                            plan, state, around.variety().apply(plan), around.nowEpochMillis()),
                    state,
                    bestOrders);
        } catch (RuntimeException fault) {
            LOG.error("the window cannot be worked out: {}", fault.toString(), fault);
            return WindowView.unknown(plan);
        }
    }

    private static List<LeftOutPart> leftOut(
            LiveState state, Lighting lighting, WindowView view, Around around) {
        ShootPlan plan = lighting.plan();
        return state.course().leftOut().stream()
                .flatMap(id -> plan.shot(id).stream())
                .map(
                        s ->
                                new LeftOutPart(
                                        shot(s, state, lighting, view, around),
                                        "takes "
                                                + PlanWords.length(
                                                        view.shots().get(s.id()).takesSeconds())))
                .toList();
    }

    private static SolosPart solos(ShootPlan plan, LiveState state) {
        List<String> missing = SolosRound.missing(plan, state);
        boolean on = plan.shot(state.shot()).isPresent();
        String says =
                missing.isEmpty()
                        ? "Everybody has a solo"
                        : on
                                ? "Solos for %d on ‘%s’"
                                        .formatted(
                                                missing.size(),
                                                plan.shot(state.shot()).orElseThrow().look())
                                : "Solos once a look is on";
        return new SolosPart(missing, on && !missing.isEmpty(), says);
    }

    /** In the running order; what the plan no longer has is passed over. */
    private static List<Shot> shots(ShootPlan plan, LiveState state) {
        List<String> order = state.course().order();
        return order.isEmpty()
                ? plan.shots()
                : order.stream().flatMap(id -> plan.shot(id).stream()).toList();
    }

    /** Every frame of the shoot, the newest first: more than the crew's message holds. */
    public List<FramePart> allFrames(LiveState state, Around around) {
        return frameParts.all(
                state.frames(), around.url(), CameraClock.of(state.frames()), around.copying());
    }

    private static PicturePart picture(
            ShootPlan plan,
            Shot shot,
            Look look,
            Adjustment adjustment,
            LiveState state,
            Around around) {
        Origin origin = around.origin().apply(plan, look);
        return PicturePart.of(
                "/prediction/%s.jpg?v=%s"
                        .formatted(shot.id(), PictureVersion.of(state, adjustment, origin)),
                origin,
                plan,
                shot);
    }

    private static ClockPart clock(LiveState at, ShootPlan plan, long now) {
        Clock clock = at.clock();
        double whole = at.windowSeconds(plan);
        String state = clock.running() ? "running" : clock.fresh() ? "ready" : "paused";
        double left = whole - clock.elapsedMillis(now) / 1000.0;
        return new ClockPart(state, whole, left, now);
    }

    private static ShotPart shot(
            Shot s, LiveState state, Lighting lighting, WindowView view, Around around) {
        Look look = lighting.look(state, s);
        ShotTime time = view.shots().get(s.id());
        return new ShotPart(
                s.id(),
                s.name(),
                s.safe(),
                s.look(),
                s.people(),
                PlanWords.arrangement(s.arrangement()),
                s.say(),
                s.framing(),
                s.importance(),
                s.lensMillimetres(),
                s.distanceMetres(),
                camera(look.camera()),
                state.framesOf(s.id()),
                state.inTheBag(s.id()),
                job(lighting.plan(), state, s),
                s.solo(),
                time.startsInSeconds().map(CutPart::tenths).orElse(null),
                CutPart.tenths(time.takesSeconds()),
                time.change(),
                time.fallsOff(),
                picture(
                        lighting.plan(),
                        s,
                        look,
                        state.changes().of(s.id(), s.look()),
                        state,
                        around));
    }

    /** Empty while nobody else wants pictures: then there is nothing to tell apart. */
    private static String job(ShootPlan plan, LiveState state, Shot shot) {
        return plan.around().jobs().isEmpty() && state.jobs().opened().isEmpty()
                ? ""
                : JobsPart.name(plan, shot.use().job());
    }

    static CameraPart camera(CameraSettings c) {
        return new CameraPart(c.fNumber(), PlanWords.time(c.seconds()), c.iso(), c.kelvin());
    }

    private static Plot plot(ShootPlan file, LightParts lightParts, Shot shot, Shown shown) {
        ShootPlan plan = file.placed(shown.look());
        List<Vec3> stands = Positions.of(shot.arrangement(), shot.people().size());
        return new Plot(
                new PlacePart(
                        plan.place().name(),
                        plan.place().widthMetres(),
                        plan.place().depthMetres(),
                        plan.place().backgroundMetres()),
                new PlotCamera(0, -shot.distanceMetres(), shot.lensMillimetres()),
                IntStream.range(0, stands.size())
                        .mapToObj(
                                i ->
                                        new PlotPerson(
                                                shot.people().get(i),
                                                centimetres(stands.get(i).x()),
                                                centimetres(stands.get(i).y())))
                        .toList(),
                IntStream.range(0, plan.rig().size())
                        .mapToObj(i -> light(plan, lightParts, shown, i))
                        .toList());
    }

    private static PlotLight light(ShootPlan plan, LightParts lightParts, Shown shown, int index) {
        Light light = plan.rig().get(index);
        double[] on = shown.levels().of(index);
        Xyz sent = Photometry.intensity(light, on);
        return new PlotLight(
                light.name(),
                light.fixture().name() + ", " + light.modifier().name(),
                PlanWords.address(light),
                light.position().x(),
                light.position().y(),
                light.position().z(),
                light.aim().x(),
                light.aim().y(),
                Photometry.luminaire(light).beamDegrees(),
                sent.y() > 0,
                seenBy(shown.look().camera().kelvin(), sent),
                lightParts.level(shown, light));
    }

    /** The light's colour as the camera is balanced, as bright as a screen can show that hue. */
    private static String seenBy(double cameraKelvin, Xyz sent) {
        if (sent.y() <= 0) {
            return "#000000";
        }
        double[] linear = new WhiteBalance(cameraKelvin).linearSrgb(sent);
        double most = Math.max(linear[0], Math.max(linear[1], linear[2]));
        StringBuilder hex = new StringBuilder("#");
        for (double channel : linear) {
            double shown = Srgb.encode(Math.max(0, channel) / most);
            hex.append(String.format(Locale.ROOT, "%02x", Math.round(shown * 255)));
        }
        return hex.toString();
    }

    private static double centimetres(double metres) {
        return Math.round(metres * 100) / 100.0;
    }
}
