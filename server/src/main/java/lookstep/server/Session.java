package lookstep.server;

import java.io.IOException;
import java.security.SecureRandom;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.locks.LockSupport;
import lookstep.protocols.dmx.DmxTiming;
import lookstep.server.gear.Gear;
import lookstep.server.intake.FrameIntake;
import lookstep.server.live.Event;
import lookstep.server.live.Journal;
import lookstep.server.live.Link;
import lookstep.server.live.Links;
import lookstep.server.live.Live;
import lookstep.server.live.LiveState;
import lookstep.server.look.Fade;
import lookstep.server.look.LookLevels;
import lookstep.server.look.RigLevels;
import lookstep.server.look.RigPackets;
import lookstep.server.loop.LoopThread;
import lookstep.server.output.LineDriver;
import lookstep.server.output.LineState;
import lookstep.server.output.LookPlayer;
import lookstep.server.output.Periods;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.prediction.Predictions;
import lookstep.server.web.Keys;
import lookstep.server.web.Messages;
import lookstep.server.web.PageServer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** One shoot that is being served: its parts put together, the light first. */
final class Session implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(Session.class);
    private static final long WATCHDOG_NANOS = 250_000_000;

    /** A page that hears nothing for some of these knows that it is cut off. */
    private static final long PULSE_NANOS = 2_000_000_000;

    private final ShootPlan plan;
    private final Map<String, RigLevels> levels = new HashMap<>();
    private final List<String> notes = new ArrayList<>();
    private final Live live;
    private final Keys keys;
    private final Links links = new Links(this::tellPages);
    private final LookPlayer player;
    private final LineDriver driver;
    private final Deque<AutoCloseable> parts = new ArrayDeque<>();
    private int playedPosition;
    private volatile Optional<PageServer> pages = Optional.empty();

    private Session(ShootPlan plan, String planHash, Gear gear, Journal journal)
            throws IOException {
        this.plan = plan;
        for (Look look : plan.looks()) {
            LookLevels worked = LookLevels.of(plan, look);
            levels.put(look.name(), worked.levels());
            notes.addAll(worked.notes());
        }
        notes.addAll(outOfReach(plan));
        String before = Journal.replay(journal.found()).planHash();
        if (!before.isEmpty() && !before.equals(planHash)) {
            notes.add("The plan was edited since this shoot was last opened.");
        }
        live =
                new Live(
                        journal,
                        plan.shots().stream().map(Shot::id).toList(),
                        planHash,
                        System::currentTimeMillis);
        playedPosition = live.state().position();
        player =
                new LookPlayer(
                        levels.get(look(live.state()).name()),
                        new Fade(plan),
                        at -> RigPackets.packet(plan, at, Gear.LINE_UNIVERSE),
                        DmxTiming.STEADY.periodNanos());
        driver = new LineDriver(gear.line(), DmxTiming.STEADY, player, s -> links.tell(link(s)));
        keys = keys(live);
    }

    /**
     * Opens the shoot, goes on where its journal ends.
     *
     * @param journal stays the caller's to close, after this
     * @throws IOException if the frames folder or the address cannot be had; the message says what
     *     to do, and nothing is left running
     */
    static Session open(
            ShootPlan plan, String planHash, Gear gear, Journal journal, String host, int port)
            throws IOException {
        Session session = new Session(plan, planHash, gear, journal);
        try {
            session.lightTheLine(gear);
            session.takeFrames(gear, host, port);
            return session;
        } catch (IOException | RuntimeException e) {
            session.close();
            throw e;
        }
    }

    private void lightTheLine(Gear gear) {
        links.tell(new Link("lights", false, "opening " + gear.line().name()));
        parts.push(this::letTheLastPacketOut);
        parts.push(LoopThread.startPrecise("line", driver::doWork));
        parts.push(LoopThread.start("line watchdog", this::watch));
        live.watch(this::play);
    }

    private void takeFrames(Gear gear, String host, int port) throws IOException {
        FrameIntake intake = new FrameIntake(gear.frames(), live, links, this::tellPages);
        parts.push(intake);
        parts.push(LoopThread.start("frames", intake::doWork));
        PageServer server =
                PageServer.start(
                        new PageServer.About(
                                live,
                                links,
                                intake.store(),
                                intake::newest,
                                new Predictions(plan),
                                new Messages(plan, gear.simulated(), notes),
                                gear.shutter(),
                                keys,
                                System::currentTimeMillis),
                        host,
                        port);
        parts.push(server);
        pages = Optional.of(server);
        live.watch(state -> tellPages());
        tellPages();
        parts.push(LoopThread.start("pulse", this::pulse));
    }

    private long watch(long nowNanos) {
        driver.closeIfStuck(nowNanos);
        return nowNanos + WATCHDOG_NANOS;
    }

    private long pulse(long nowNanos) {
        pages.ifPresent(PageServer::alive);
        return nowNanos + PULSE_NANOS;
    }

    private static List<String> outOfReach(ShootPlan plan) {
        List<String> notes = new ArrayList<>();
        for (Light light : plan.rig()) {
            if (light.universe() != Gear.LINE_UNIVERSE) {
                notes.add(
                        "‘%s’ is on universe %d, the line carries universe %d: it stays dark; address it on universe %d"
                                .formatted(
                                        light.name(),
                                        light.universe(),
                                        Gear.LINE_UNIVERSE,
                                        Gear.LINE_UNIVERSE));
            }
        }
        return notes;
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

    private static Link link(LineState state) {
        return new Link("lights", state.up(), state.says());
    }

    private void tellPages() {
        pages.ifPresent(PageServer::changed);
    }

    /** The look that is on: before the first step the safe shot's, so that it can be tested. */
    private Look look(LiveState state) {
        return plan.look(plan.shots().get(Math.max(1, state.position()) - 1).look());
    }

    private void play(LiveState state) {
        if (state.position() != playedPosition) {
            playedPosition = state.position();
            Look look = look(state);
            player.go(levels.get(look.name()), look.fadeSeconds());
        }
    }

    Live live() {
        return live;
    }

    Keys keys() {
        return keys;
    }

    /** Break to break, as it really went. */
    Periods periods() {
        return driver.periods();
    }

    int port() {
        return pages.orElseThrow().port();
    }

    private void letTheLastPacketOut() {
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
