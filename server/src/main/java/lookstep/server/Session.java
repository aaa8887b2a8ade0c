package lookstep.server;

import java.io.IOException;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.locks.LockSupport;
import lookstep.protocols.dmx.DmxTiming;
import lookstep.server.gear.Gear;
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

/** One shoot that is being served: its parts put together, the light first. */
final class Session implements AutoCloseable {
    private static final long WATCHDOG_NANOS = 250_000_000;

    /** A page that hears nothing for some of these knows that it is cut off. */
    private static final long PULSE_NANOS = 2_000_000_000;

    private final ShootPlan plan;
    private final Journal journal;
    private final Live live;
    private final Keys keys;
    private final LookPlayer player;
    private final LineDriver driver;
    private final LoopThread lineThread;
    private final LoopThread watchdog;
    private final FrameIntake intake;
    private final LoopThread framesThread;
    private final PageServer pages;
    private final LoopThread pulse;
    private final Map<String, RigLevels> levels = new HashMap<>();
    private int playedPosition;
    private volatile PageServer toTell;

    /**
     * Opens the shoot, goes on where its journal ends.
     *
     * @throws IOException if journal, frames folder or address cannot be had; the message says what
     *     to do
     */
    Session(ShootPlan plan, String planHash, Gear gear, Path journalFile, String host, int port)
            throws IOException {
        this.plan = plan;
        List<String> notes = new ArrayList<>();
        for (Look look : plan.looks()) {
            LookLevels worked = LookLevels.of(plan, look);
            levels.put(look.name(), worked.levels());
            notes.addAll(worked.notes());
        }
        notes.addAll(outOfReach(plan));
        journal = Journal.open(journalFile);
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

        DmxTiming timing = DmxTiming.STEADY;
        playedPosition = live.state().position();
        player =
                new LookPlayer(
                        levels.get(look(live.state()).name()),
                        new Fade(plan),
                        at -> RigPackets.packet(plan, at, Gear.LINE_UNIVERSE),
                        timing.periodNanos());
        Links links = new Links(this::tellPages);
        links.tell(new Link("lights", false, "opening " + gear.line().name()));
        driver = new LineDriver(gear.line(), timing, player, s -> links.tell(link(s)));
        lineThread = LoopThread.startPrecise("line", driver::doWork);
        watchdog =
                LoopThread.start(
                        "line watchdog",
                        now -> {
                            driver.closeIfStuck(now);
                            return now + WATCHDOG_NANOS;
                        });
        live.watch(this::play);
        keys = keys(live);

        intake = new FrameIntake(gear.frames(), live, links, this::tellPages);
        framesThread = LoopThread.start("frames", intake::doWork);
        pages =
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
        toTell = pages;
        live.watch(state -> tellPages());
        pulse =
                LoopThread.start(
                        "pulse",
                        now -> {
                            pages.alive();
                            return now + PULSE_NANOS;
                        });
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
                                Keys.word(random, 8),
                                "lookstep-" + Keys.word(random, 6)));
        return new Keys(made.crew(), made.band(), made.cookie());
    }

    private static Link link(LineState state) {
        return new Link("lights", state.up(), state.says());
    }

    private void tellPages() {
        PageServer open = toTell;
        if (open != null) {
            open.changed();
        }
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
        return pages.port();
    }

    /** Ends in order: pages, frames, then the line, whose last packet is let out whole. */
    @Override
    public void close() {
        pulse.close();
        pages.close();
        framesThread.close();
        intake.close();
        watchdog.close();
        lineThread.close();
        LockSupport.parkNanos(DmxTiming.wireNanos(512));
        driver.close();
        journal.close();
    }
}
