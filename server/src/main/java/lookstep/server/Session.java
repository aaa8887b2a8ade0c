package lookstep.server;

import java.io.IOException;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.time.ZoneId;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.locks.LockSupport;
import lookstep.protocols.dmx.DmxPacket;
import lookstep.protocols.dmx.DmxTiming;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.server.desk.Desk;
import lookstep.server.desk.PlanChecking;
import lookstep.server.framecheck.FrameChecks;
import lookstep.server.framecheck.Predicted;
import lookstep.server.frames.PreviewMaker;
import lookstep.server.frames.StandIn;
import lookstep.server.gear.CameraControl;
import lookstep.server.gear.Gear;
import lookstep.server.gear.WayIn;
import lookstep.server.intake.FrameChecking;
import lookstep.server.intake.FrameCopies;
import lookstep.server.intake.FrameIntake;
import lookstep.server.intake.FramePictures;
import lookstep.server.intake.FullSizeDetail;
import lookstep.server.lighting.Lighting;
import lookstep.server.lighting.Lightings;
import lookstep.server.lighting.Shown;
import lookstep.server.live.Event;
import lookstep.server.live.Journal;
import lookstep.server.live.Link;
import lookstep.server.live.Links;
import lookstep.server.live.Live;
import lookstep.server.live.LiveState;
import lookstep.server.live.ShotFacts;
import lookstep.server.look.Fade;
import lookstep.server.look.RigLevels;
import lookstep.server.look.RigPackets;
import lookstep.server.loop.LoopThread;
import lookstep.server.output.LineDriver;
import lookstep.server.output.LineState;
import lookstep.server.output.LookPlayer;
import lookstep.server.output.Periods;
import lookstep.server.output.SacnDriver;
import lookstep.server.patch.PatchReport;
import lookstep.server.patch.PatchWarning;
import lookstep.server.pictured.LookPictures;
import lookstep.server.plan.Placing;
import lookstep.server.plan.PlanHash;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plan.edit.PlanKeeper;
import lookstep.server.plates.PlateArithmetic;
import lookstep.server.plates.PlateBook;
import lookstep.server.plates.PlateChange;
import lookstep.server.plates.PlateFrames;
import lookstep.server.plates.PlateTaker;
import lookstep.server.plates.PlateWatch;
import lookstep.server.plates.PlatesNow;
import lookstep.server.plates.Shutter;
import lookstep.server.prediction.Predictions;
import lookstep.server.tryout.TryOuts;
import lookstep.server.web.FrameParts;
import lookstep.server.web.Keys;
import lookstep.server.web.Messages;
import lookstep.server.web.PageServer;
import lookstep.simulator.model.space.Vec3;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** One shoot that is being served: its parts put together, the light first. */
final class Session implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(Session.class);
    private static final long WATCHDOG_NANOS = 250_000_000;

    /** A page that hears nothing for some of these knows that it is cut off. */
    private static final long PULSE_NANOS = 2_000_000_000;

    /** The fade, and a change before it that may have to wait for the flashing limit. */
    private static final long MOST_TO_WORK_LIGHT_NANOS = 2_500_000_000L;

    /** However fast edits of the rig are made and taken back, its light changes twice a second. */
    private static final long BETWEEN_RIGS_NANOS = 500_000_000;

    /** Three beats of the network, and some. */
    private static final long MOST_TO_END_NANOS = 200_000_000;

    private final Lightings lightings;
    private final Gear gear;
    private final List<String> notes = new ArrayList<>();
    private final Live live;
    private final Keys keys;
    private final Links links = new Links(this::tellPages);
    private volatile Playing player;
    private PlateBook plates;
    private final Optional<LineDriver> line;
    private final Optional<SacnDriver> network;
    private volatile boolean lightsReached;
    private boolean ending;
    private final Deque<AutoCloseable> parts = new ArrayDeque<>();
    private Shown playing;
    private Checking checking;
    private boolean replaced;
    private long replacedNanos;

    /** What frames are held against, and which plan that is. */
    private record Checking(ShootPlan plan, FrameChecks checks) {}

    /**
     * What plays the looks of one rig.
     *
     * @param plan its lights, by their addresses
     */
    private record Playing(ShootPlan plan, LookPlayer looks) {
        static Playing of(ShootPlan plan, Shown shown) {
            return new Playing(
                    plan,
                    new LookPlayer(shown.levels(), new Fade(plan), DmxTiming.STEADY.periodNanos()));
        }

        /** Whether the levels of this rig are those of the other, slot by slot. */
        boolean fits(ShootPlan other) {
            return plan.rig().stream()
                    .map(l -> l.placed(NOWHERE))
                    .toList()
                    .equals(other.rig().stream().map(l -> l.placed(NOWHERE)).toList());
        }
    }

    private static final Placing NOWHERE = new Placing(new Vec3(0, 0, 0), new Vec3(0, 0, 1));
    private volatile Optional<PageServer> pages = Optional.empty();

    private Session(PlanKeeper plan, Gear gear, Journal journal) throws IOException {
        this.gear = gear;
        lightings = new Lightings(plan.current().plan());
        String planHash = PlanHash.of(lightings.read());
        String before = lastPlan(journal);
        if (!before.isEmpty() && !before.equals(planHash)) {
            notes.add("The plan was edited since this shoot was last opened.");
        }
        live = new Live(journal, lightings::possible, planHash, System::currentTimeMillis);
        playing = lighting().shown(live.state());
        player = Playing.of(lighting().plan(), playing);
        line =
                gear.line()
                        .map(
                                l ->
                                        new LineDriver(
                                                l.port(),
                                                DmxTiming.STEADY,
                                                now -> packet(l.universe(), now),
                                                state -> tell("lights", state)));
        network =
                gear.network()
                        .map(
                                n ->
                                        new SacnDriver(
                                                n.port(),
                                                n.setup(),
                                                universe -> now -> packet(universe, now),
                                                state -> tell("network", state)));
        keys = keys(live);
    }

    /** The hash of the plan as it was when this shoot was last opened; empty before. */
    private static String lastPlan(Journal journal) {
        String last = "";
        for (Journal.Entry entry : journal.found()) {
            if (entry.event() instanceof Event.Opened opened) {
                last = opened.planHash();
            }
        }
        return last;
    }

    /**
     * Opens the shoot, goes on where its journal ends.
     *
     * @param journal stays the caller's to close, after this
     * @throws IOException if the frames folder or the address cannot be had; the message says what
     *     to do, and nothing is left running
     */
    static Session open(PlanKeeper plan, Gear gear, Journal journal, String host, int port)
            throws IOException {
        Session session = new Session(plan, gear, journal);
        try {
            session.light(gear);
            session.takeFrames(plan, gear, host, port);
            return session;
        } catch (IOException | RuntimeException e) {
            session.close();
            throw e;
        }
    }

    private void light(Gear gear) {
        line.ifPresent(driver -> light(driver, gear.line().orElseThrow().port().name()));
        network.ifPresent(driver -> light(driver, gear.network().orElseThrow().port().name()));
        live.watch(this::play);
        send(playing, 0);
        allowFlashing(live.state());
        parts.push(this::goToWorkLight);
    }

    private void light(LineDriver driver, String name) {
        links.tell(new Link("lights", false, "opening " + name));
        parts.push(() -> letTheLastPacketOut(driver));
        parts.push(LoopThread.startPrecise("line", driver::doWork));
        parts.push(LoopThread.start("line watchdog", now -> watch(driver, now)));
    }

    private void light(SacnDriver driver, String name) {
        links.tell(new Link("network", false, "opening " + name));
        parts.push(driver);
        parts.push(LoopThread.start("network", driver::doWork));
        parts.push(() -> letTheEndBeSaid(driver));
    }

    private void tell(String name, LineState state) {
        if (state.up()) {
            lightsReached = true;
        }
        links.tell(new Link(name, state.up(), state.says()));
    }

    private void takeFrames(PlanKeeper plan, Gear gear, String host, int port) throws IOException {
        FrameIntake intake =
                new FrameIntake(
                        gear.frames(),
                        live,
                        links,
                        this::facts,
                        new FramePictures.Makers(new PreviewMaker()::make, StandIn::of),
                        this::tellPages,
                        System::currentTimeMillis);
        parts.push(intake);
        Predictions predictions = new Predictions();
        check(intake, predictions);
        Optional<FrameCopies> copies = gear.copies().map(to -> copy(intake, gear.frames(), to));
        parts.push(LoopThread.start("frames", intake::doWork));
        Optional<CameraHand> hand = gear.control().map(this::hold);
        for (WayIn way : gear.ways()) {
            parts.push(way.start(new Arrivals(way.name(), gear.frames(), intake, links)));
        }
        PlateSources sources = new PlateSources(() -> plates.current(), ZoneId.systemDefault());
        PlanChecking planChecking =
                new PlanChecking(lightings, sources::id, sources::light, this::tellPages);
        parts.push(planChecking);
        PlateFrames plateFrames =
                new PlateFrames(intake.pictures()::original, new PreviewMaker()::make);
        PlateTaker taker =
                new PlateTaker(
                        live,
                        lightings,
                        this::lit,
                        shutter(hand),
                        plateFrames::of,
                        PlateArithmetic::motion,
                        System::currentTimeMillis,
                        this::tellPages);
        plates =
                new PlateBook(
                        live,
                        lightings,
                        plateFrames::of,
                        PlateArithmetic::measured,
                        () -> {
                            planChecking.of(live.state());
                            tellPages();
                        });
        parts.push(LoopThread.start("plates", taker::doWork));
        parts.push(LoopThread.start("plate book", plates::doWork));
        parts.push(
                LoopThread.start(
                        "plate watch",
                        new PlateWatch(
                                        live,
                                        lightings,
                                        plates,
                                        plateFrames::of,
                                        PlateChange::seen,
                                        System::currentTimeMillis)
                                ::doWork));
        Desk desk =
                new Desk(
                        plan,
                        GenericFixtures.all(),
                        lightings,
                        live,
                        planChecking,
                        this::tellPages);
        PageServer server =
                PageServer.start(
                        new PageServer.About(
                                live,
                                links,
                                intake.pictures(),
                                () -> copies.map(FrameCopies::words).orElse(Map.of()),
                                () -> hand.map(CameraHand::byHand).orElse(List.of()),
                                new LookPictures(predictions, sources::source),
                                new TryOuts(sources::scene),
                                desk,
                                lightings,
                                gear.carried(),
                                new Messages(
                                        lightings,
                                        new FrameParts(ZoneId.systemDefault(), copies.isPresent()),
                                        gear.simulated(),
                                        this::notes,
                                        ZoneId.systemDefault()),
                                () -> PlatesNow.of(taker, plates).doubting(sources.doubts()),
                                gear.shutter(),
                                keys,
                                System::currentTimeMillis),
                        host,
                        port);
        parts.push(server);
        pages = Optional.of(server);
        live.watch(state -> tellPages());
        live.watch(planChecking::of);
        planChecking.of(live.state());
        tellPages();
        parts.push(LoopThread.start("plan file", desk::doWork));
        parts.push(LoopThread.start("pulse", this::pulse));
    }

    private void check(FrameIntake intake, Predictions predictions) {
        FrameChecking checking =
                new FrameChecking(
                        () -> checks(predictions),
                        live,
                        intake.pictures(),
                        this::shot,
                        (state, shot) -> lightings.of(state).look(state, shot),
                        FullSizeDetail::of);
        parts.push(checking);
        intake.tellPreviews((number, preview) -> checking.look(number));
        live.watch(checking::watch);
        live.watch(intake.pictures()::makeForBand);
        boolean[] plates = {live.state().plates().run().isPresent()};
        live.watch(
                state -> {
                    boolean now = state.plates().run().isPresent();
                    if (plates[0] && !now) {
                        // a plate that is still on its way is nothing for the band
                        intake.pictures().forgetEarly();
                    }
                    plates[0] = now;
                });
        live.state().frames().stream()
                .filter(f -> f.checked().isEmpty())
                .forEach(f -> checking.look(f.number()));
        String[] expected = {""};
        live.watch(
                state -> {
                    if (!state.shot().equals(expected[0])) {
                        expected[0] = state.shot();
                        checking.expect(state.shot());
                    }
                });
        checking.expect(live.state().shot());
    }

    private FrameCopies copy(FrameIntake intake, Path frames, Path to) {
        FrameCopies copies = new FrameCopies(frames, to, live, links, this::tellPages);
        intake.tell(copies::add);
        parts.push(copies);
        parts.push(LoopThread.start("copies", copies::doWork));
        return copies;
    }

    /** Whether the light that the state asks for is there, whole. */
    private boolean lit(long nowNanos) {
        RigLevels wanted = lighting().shown(live.state()).levels();
        synchronized (this) {
            return playing.levels().equals(wanted) && player.looks().arrived(nowNanos);
        }
    }

    private Optional<Shutter> shutter(Optional<CameraHand> hand) {
        return gear.shutter()
                .map(
                        release ->
                                new Shutter() {
                                    @Override
                                    public boolean canRelease() {
                                        return hand.map(CameraHand::canRelease).orElse(true);
                                    }

                                    @Override
                                    public void release() {
                                        release.run();
                                    }
                                });
    }

    /** The plates that hold now. */
    PlateBook plates() {
        return plates;
    }

    /** One key changes light and camera together, as far as the camera lets itself be set. */
    private CameraHand hold(CameraControl control) {
        CameraHand hand = new CameraHand(control, this::tellPages);
        hand.want(live.state(), lighting().shown(live.state()));
        live.watch(state -> hand.want(state, lightings.of(state).shown(state)));
        return hand;
    }

    private Optional<Shot> shot(String id) {
        return lighting().plan().shot(id);
    }

    /** Frames are held against the plan as it is now. */
    private synchronized FrameChecks checks(Predictions predictions) {
        ShootPlan plan = lighting().plan();
        if (checking == null || !checking.plan().equals(plan)) {
            checking = new Checking(plan, new FrameChecks(plan, Predicted.of(plan, predictions)));
        }
        return checking.checks();
    }

    private List<String> notes(Lighting lighting) {
        List<String> all = new ArrayList<>(lighting.notes());
        all.addAll(outOfReach(lighting.plan(), gear));
        all.addAll(notes);
        return all;
    }

    /** A shot that has gone from the plan since is not asked for. */
    private ShotFacts facts(String id) {
        return lightings.shot(live.state(), id).map(ShotFacts::of).orElse(ShotFacts.NONE);
    }

    private static long watch(LineDriver driver, long nowNanos) {
        driver.closeIfStuck(nowNanos);
        return nowNanos + WATCHDOG_NANOS;
    }

    private long pulse(long nowNanos) {
        pages.ifPresent(PageServer::alive);
        return nowNanos + PULSE_NANOS;
    }

    private static List<String> outOfReach(ShootPlan plan, Gear gear) {
        return PatchReport.of(plan, gear.carried().keySet()).warnings().stream()
                .filter(w -> w.kind() == PatchWarning.Kind.NOT_CARRIED)
                .map(w -> w.says() + ": " + w.mend())
                .toList();
    }

    private static Keys keys(Live live) throws IOException {
        SecureRandom random = new SecureRandom();
        Event.KeysMade made =
                live.keys(
                        new Event.KeysMade(
                                Keys.word(random, 20),
                                Keys.word(random, 10),
                                "lookstep-" + Keys.word(random, 6)));
        return new Keys(made.crew(), made.band(), made.cookie());
    }

    private void tellPages() {
        pages.ifPresent(PageServer::changed);
    }

    /** One whole, consistent packet for a moment. */
    private DmxPacket packet(int universe, long nowNanos) {
        Playing now = player;
        LookPlayer.Moment moment = now.looks().at(nowNanos);
        return moment.raw()
                .filter(raw -> raw.universe() == universe)
                .map(raw -> DmxPacket.ofSlots(raw.slots()))
                .orElseGet(() -> RigPackets.packet(now.plan(), moment.levels(), universe));
    }

    private void allowFlashing(LiveState state) {
        ShootPlan plan = lightings.of(state).plan();
        player.looks().allowFlashing(plan.flashingAllowed() && state.flashingAcknowledged());
    }

    private synchronized void play(LiveState state) {
        if (ending) {
            return; // a press that came late does not take the work light away
        }
        Lighting lighting = lightings.of(state);
        Shown next = lighting.shown(state);
        if (!player.fits(lighting.plan())) {
            // Another rig: there is no way from the levels of the one to those of the other, and
            // nobody has counted turns of its lights yet.
            long early = replacedNanos + BETWEEN_RIGS_NANOS - System.nanoTime();
            if (replaced && early > 0) {
                LockSupport.parkNanos(early);
            }
            replaced = true;
            replacedNanos = System.nanoTime();
            player = Playing.of(lighting.plan(), next);
            playing = next;
            allowFlashing(state);
            send(next, 0);
            return;
        }
        allowFlashing(state);
        boolean same = next.levels().equals(playing.levels()) && next.raw().equals(playing.raw());
        double fade = Lighting.fadeSeconds(playing, next);
        playing = next;
        if (!same) {
            send(next, fade);
        }
    }

    private void send(Shown next, double fadeSeconds) {
        if (next.raw().isPresent()) {
            player.looks().go(next.raw().get(), next.levels());
        } else {
            player.looks().go(next.levels(), fadeSeconds);
        }
    }

    /** What people find when the program has ended: most lights hold what they saw last. */
    private void goToWorkLight() {
        if (!lightsReached) {
            return;
        }
        synchronized (this) {
            ending = true;
            if (!player.fits(lighting().plan())) {
                player = Playing.of(lighting().plan(), playing);
            }
            player.looks().go(lighting().workLight(), Lighting.WORK_LIGHT_SECONDS);
        }
        long deadline = System.nanoTime() + MOST_TO_WORK_LIGHT_NANOS;
        while (!player.looks().arrived(System.nanoTime()) && System.nanoTime() - deadline < 0) {
            LockSupport.parkNanos(DmxTiming.STEADY.periodNanos());
        }
        // The packet that says so is the next one.
        LockSupport.parkNanos(2 * DmxTiming.STEADY.periodNanos());
    }

    /** Plan and light as they are now. */
    Lighting lighting() {
        return lightings.of(live.state());
    }

    Lightings lightings() {
        return lightings;
    }

    Live live() {
        return live;
    }

    Keys keys() {
        return keys;
    }

    /** Break to break on the line, as it really went. */
    Periods periods() {
        return line.orElseThrow().periods();
    }

    int port() {
        return pages.orElseThrow().port();
    }

    /** On three beats, so that one lost datagram is not the end of it; not if nobody is there. */
    private static void letTheEndBeSaid(SacnDriver driver) {
        driver.terminate();
        long deadline = System.nanoTime() + MOST_TO_END_NANOS;
        while (!driver.ended() && System.nanoTime() - deadline < 0) {
            LockSupport.parkNanos(DmxTiming.STEADY.periodNanos() / 2);
        }
    }

    private static void letTheLastPacketOut(LineDriver driver) {
        while (System.nanoTime() - driver.drainedNanos() < 0) {
            LockSupport.parkNanos(driver.drainedNanos() - System.nanoTime());
        }
        driver.close();
    }

    /** Ends in order: pages, frames, then the line, whose last packet is let out whole. */
    @Override
    public void close() {
        while (!parts.isEmpty()) {
            try {
                parts.pop().close();
            } catch (Exception e) {
                LOG.warn("while stopping: {}", e.getMessage());
            }
        }
    }
}
