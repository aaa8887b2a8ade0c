package lookstep.server;

import java.io.IOException;
import java.lang.management.GarbageCollectorMXBean;
import java.lang.management.ManagementFactory;
import java.net.InetAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Deque;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Stream;
import lookstep.protocols.dmx.DmxTiming;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.protocols.image.ExifData;
import lookstep.protocols.image.ExifWriter;
import lookstep.protocols.wire.SerialLinePort;
import lookstep.server.gear.Gear;
import lookstep.server.gear.Gear.NetworkOutput;
import lookstep.server.gear.Gear.SerialOutput;
import lookstep.server.live.Journal;
import lookstep.server.look.Photometry;
import lookstep.server.loop.LoopThread;
import lookstep.server.output.SacnSetup;
import lookstep.server.plan.Light;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plan.file.DemoShoot;
import lookstep.server.prediction.Predictions;
import lookstep.server.prediction.Staging;
import lookstep.server.soak.Arrivals;
import lookstep.server.soak.Beats;
import lookstep.server.soak.EmptyLoop;
import lookstep.server.soak.Pages;
import lookstep.server.soak.TimedLine;
import lookstep.server.soak.TimedNetwork;
import lookstep.simulator.gear.CardWriter;
import lookstep.simulator.gear.LightListener;
import lookstep.simulator.gear.PatchedLight;
import lookstep.simulator.gear.PtyFarEnd;
import lookstep.simulator.gear.SacnFarEnd;
import lookstep.simulator.gear.SacnListener;
import lookstep.simulator.gear.SimulatedCamera;
import lookstep.simulator.gear.SocatPair;
import lookstep.simulator.gear.View;

/**
 * A whole shoot's time at one go: a picture each second, a press every few seconds, pages open, and
 * every period of the line counted, beside an empty loop of the same period in the same process.
 * Run by {@code server/soak}; ends with 1 if a gap was over 100 ms, a frame was lost or a press was
 * not answered.
 *
 * <p>What is timed is the request for each break, where the serial library takes it: a
 * pseudo-terminal has no wire behind it. The far end, the camera and the pages run in this process
 * too and take their share of it, as in a rehearsal.
 */
final class Soak implements AutoCloseable {
    private static final int MINUTES = 30;
    private static final int MOST_MINUTES = 24 * 60;
    private static final long GAP_NANOS = 100_000_000;

    /** ANSI E1.31-2018, clause 6.6.2: the same levels are said again within a second. */
    private static final long KEEP_ALIVE_NANOS = 1_000_000_000;

    private static final long PICTURE_NANOS = 1_000_000_000;
    private static final long LEAST_PRESS_MILLIS = 2000;
    private static final long MOST_PRESS_MILLIS = 6000;
    private static final long FAR_END_NANOS = 700_000;
    private static final long LAST_FRAMES_NANOS = TimeUnit.SECONDS.toNanos(30);
    private static final DateTimeFormatter TIME =
            DateTimeFormatter.ofPattern("HH:mm:ss.SSS").withZone(ZoneId.systemDefault());

    private final int minutes;
    private final ShootPlan plan = DemoShoot.read(GenericFixtures.all());
    private final Path dir = Files.createTempDirectory("lookstep-soak");
    private final Deque<AutoCloseable> parts = new ArrayDeque<>();

    /** What is measured: a second output joins here with beats of its own. */
    private final List<Beats> outputs = new ArrayList<>();

    private final Beats empty = beats("an empty loop");
    private final AtomicInteger presses = new AtomicInteger();
    private final List<String> trouble = new ArrayList<>();
    private final Arrivals arrivals;
    private final LightListener lights;
    private final SacnListener networkLights =
            new SacnListener(
                    Map.of(Gear.LINE_UNIVERSE, plan.rig().stream().map(Soak::patched).toList()));
    private final Session session;
    private final Pages pages;
    private final long heapBefore;
    private final long residentBefore;
    private final Collections collectionsBefore;
    private volatile boolean over;

    private Soak(int minutes) throws IOException {
        this.minutes = minutes;
        Path frames = Files.createDirectory(dir.resolve("frames"));
        SocatPair nodes = SocatPair.start(dir);
        parts.push(nodes);
        lights = LightListener.byLength(plan.rig().stream().map(Soak::patched).toList());
        PtyFarEnd farEnd = new PtyFarEnd(nodes.far(), lights);
        parts.push(farEnd);
        parts.push(
                LoopThread.start(
                        "far end",
                        now -> {
                            farEnd.doWork(now);
                            return now + FAR_END_NANOS;
                        }));
        SimulatedCamera camera = camera(frames);
        camera.prepare();
        byte[] large =
                ExifWriter.insert(
                        Bench.picture(6000, 4000), ExifData.builder().orientation(1).build());
        arrivals = new Arrivals(camera, frames, large);

        // A collection stops every thread, so it comes before anything is measured.
        System.gc();
        heapBefore = heapInUse();
        residentBefore = resident();
        collectionsBefore = collections();
        EmptyLoop nothing = new EmptyLoop(empty, DmxTiming.STEADY.periodNanos());
        parts.push(LoopThread.startPrecise("empty loop", nothing::doWork));
        Beats line = beats("the line");
        outputs.add(line);
        Gear gear =
                new Gear(
                        Optional.of(
                                new SerialOutput(
                                        new TimedLine(
                                                new SerialLinePort(nodes.near().toString()), line),
                                        Gear.LINE_UNIVERSE)),
                        Optional.of(network()),
                        frames,
                        Optional.empty(),
                        List.of(),
                        Optional.empty(),
                        true,
                        Optional.empty());
        Journal journal = Journal.open(dir.resolve("journal"));
        parts.push(journal);
        session = Session.open(DemoKeeper.in(dir), gear, journal, "127.0.0.1", 0);
        parts.push(session);
        String cookie = session.keys().cookie() + "=";
        pages =
                new Pages(
                        "127.0.0.1:" + session.port(),
                        cookie + session.keys().crew(),
                        cookie + session.keys().band());
        parts.push(pages);
    }

    /** The same universe over sACN, to lights of its own on this machine. */
    private NetworkOutput network() throws IOException {
        SacnFarEnd farEnd = SacnFarEnd.unicast(InetAddress.getLoopbackAddress(), 0, networkLights);
        parts.push(farEnd);
        parts.push(
                LoopThread.start(
                        "network's far end",
                        now -> {
                            farEnd.doWork(now);
                            return now + FAR_END_NANOS;
                        }));
        SacnSetup setup =
                new SacnSetup(
                        "127.0.0.1",
                        false,
                        List.of(farEnd.address()),
                        Set.of(Gear.LINE_UNIVERSE),
                        SacnSetup.DEFAULT_PRIORITY,
                        OptionalInt.empty(),
                        new UUID(0, 1),
                        "Lookstep soak");
        Beats beats =
                new Beats(
                        "sACN, gap over 1 s",
                        (int) TimeUnit.MINUTES.toSeconds(minutes) * 10,
                        KEEP_ALIVE_NANOS,
                        System::currentTimeMillis);
        outputs.add(beats);
        return new NetworkOutput(new TimedNetwork(setup.port(), farEnd.address(), beats), setup);
    }

    private Beats beats(String name) {
        long expected = TimeUnit.MINUTES.toNanos(minutes) / DmxTiming.STEADY.periodNanos();
        return new Beats(name, (int) (expected * 11 / 10), GAP_NANOS, System::currentTimeMillis);
    }

    private static PatchedLight patched(Light light) {
        return new PatchedLight(
                light.name(), Photometry.modified(light), light.mode(), light.startSlot());
    }

    /** It stays before the first shot, so that only the light changes from picture to picture. */
    private SimulatedCamera camera(Path frames) {
        Shot shot = plan.shots().get(0);
        View view =
                new View(
                        Staging.scene(plan, shot),
                        plan.rig().stream().map(Light::name).toList(),
                        Predictions.houseWhite(plan),
                        Staging.camera(plan, shot));
        return new SimulatedCamera(
                () -> view,
                lights::snapshot,
                Clock.system(ZoneId.systemDefault()),
                new CardWriter(frames));
    }

    public static void main(String[] args) throws Exception {
        // Undertow's own words go where ours go.
        System.setProperty("org.jboss.logging.provider", "slf4j");
        Optional<Integer> minutes = minutes(args);
        if (minutes.isEmpty()) {
            System.err.printf(
                    "server/soak [MINUTES]: write a whole number from 1 to %d%n", MOST_MINUTES);
            System.exit(2);
        }
        boolean good;
        try (Soak soak = new Soak(minutes.orElseThrow())) {
            good = soak.run();
        }
        System.exit(good ? 0 : 1);
    }

    private static Optional<Integer> minutes(String[] args) {
        if (args.length == 0) {
            return Optional.of(MINUTES);
        }
        boolean number = args.length == 1 && args[0].matches("\\d{1,4}");
        return number
                ? Optional.of(Integer.valueOf(args[0])).filter(m -> m >= 1 && m <= MOST_MINUTES)
                : Optional.empty();
    }

    private boolean run() throws InterruptedException {
        System.out.printf(
                "%s, Java %s, %d processors; %d minutes from %s%n",
                System.getProperty("os.name"),
                System.getProperty("java.version"),
                Runtime.getRuntime().availableProcessors(),
                minutes,
                TIME.format(Instant.now()));
        Thread camera = begin("camera", this::photograph);
        Thread assistant = begin("assistant", this::press);
        for (int minute = 1; minute <= minutes; minute++) {
            TimeUnit.MINUTES.sleep(1);
            table("after %d of %d minutes".formatted(minute, minutes));
        }
        over = true;
        camera.join();
        assistant.join();
        awaitLastFrames();
        long now = System.nanoTime();
        outputs.forEach(o -> o.end(now));
        outputs.stream()
                .filter(o -> o.figures().count() == 0)
                .forEach(o -> note(o.name() + " never sent anything"));
        empty.end(now);
        table("at the end");
        gaps();
        long lost = lost();
        System.gc();
        System.out.printf(
                Locale.ROOT,
                "  heap after a collection %.1f MB before, %.1f MB at the end; resident %.0f MB, %.0f MB%n",
                heapBefore / 1e6,
                heapInUse() / 1e6,
                residentBefore / 1e6,
                resident() / 1e6);
        System.out.printf(
                "  %d packets heard at the far end of the line, %d of the network; %d pictures fetched by the band's page%n",
                lights.snapshot().packets(), networkLights.snapshot().packets(), pages.pictures());
        if (!networkLights.troubles().isEmpty()) {
            note("the network's lights: " + networkLights.troubles());
        }
        trouble().forEach(t -> System.out.println("  " + t));
        boolean good =
                lost == 0
                        && trouble().isEmpty()
                        && outputs.stream().allMatch(o -> o.gaps().isEmpty());
        System.out.println(good ? "GOOD" : "NOT GOOD");
        return good;
    }

    private interface Work {
        void run() throws IOException, InterruptedException;
    }

    private Thread begin(String name, Work work) {
        Thread thread =
                new Thread(
                        () -> {
                            try {
                                work.run();
                            } catch (IOException | InterruptedException | RuntimeException e) {
                                note("the " + name + " stopped: " + e);
                            }
                        },
                        name);
        thread.start();
        return thread;
    }

    private void note(String what) {
        synchronized (trouble) {
            trouble.add(what);
        }
    }

    private List<String> trouble() {
        synchronized (trouble) {
            return List.copyOf(trouble);
        }
    }

    private void photograph() throws IOException, InterruptedException {
        long due = System.nanoTime();
        while (!over) {
            arrivals.one();
            due += PICTURE_NANOS;
            TimeUnit.NANOSECONDS.sleep(Math.max(0, due - System.nanoTime()));
        }
    }

    /** To the last shot and back to the first, again and again. */
    private void press() throws IOException, InterruptedException {
        Random random = new Random(1);
        boolean forward = true;
        while (!over) {
            int position = session.live().state().position();
            if (position <= 1) {
                forward = true;
            } else if (position == plan.shots().size()) {
                forward = false;
            }
            pages.press(forward, position);
            presses.incrementAndGet();
            if (session.live().state().position() == position) {
                note("a press at " + position + " was answered, and nothing changed");
            }
            TimeUnit.MILLISECONDS.sleep(random.nextLong(LEAST_PRESS_MILLIS, MOST_PRESS_MILLIS + 1));
        }
    }

    /** Every file that was sent is to be a frame, and the band is to hear of the newest. */
    private void awaitLastFrames() throws InterruptedException {
        long began = System.nanoTime();
        int sent = arrivals.sent().size();
        while ((taken().size() < sent || pages.newest() < sent)
                && System.nanoTime() - began < LAST_FRAMES_NANOS) {
            TimeUnit.MILLISECONDS.sleep(50);
        }
        if (pages.newest() < sent) {
            note("the band saw frame %d of %d at last".formatted(pages.newest(), sent));
        }
    }

    private List<String> taken() {
        return session.live().state().frames().stream()
                .map(f -> Path.of(f.file().path()).getFileName().toString())
                .toList();
    }

    private long lost() {
        List<String> taken = taken();
        Set<String> once = new HashSet<>(taken);
        if (once.size() != taken.size()) {
            note("%d frames were taken twice".formatted(taken.size() - once.size()));
        }
        List<String> lost = arrivals.sent().stream().filter(s -> !once.contains(s)).toList();
        lost.forEach(name -> System.out.println("  LOST " + name));
        return lost.size();
    }

    private void table(String when) {
        Runtime java = Runtime.getRuntime();
        Collections collected = collections();
        System.out.printf(
                Locale.ROOT,
                "%n%s, %s; load average %.1f%n",
                TIME.format(Instant.now()),
                when,
                ManagementFactory.getOperatingSystemMXBean().getSystemLoadAverage());
        System.out.printf(
                "  %-24s %8s %9s %9s %9s %9s %9s   gaps (line: over 100 ms)%n",
                "period in ms", "n", "p50", "p99", "p99.9", "max", "p99-p1");
        outputs.forEach(Soak::row);
        row(empty);
        System.out.printf(
                Locale.ROOT,
                "  frames %d sent, %d taken; presses %d; heap %.0f MB, resident %.0f MB; %d collections, %d ms in all%n",
                arrivals.sent().size(),
                taken().size(),
                presses.get(),
                (java.totalMemory() - java.freeMemory()) / 1e6,
                resident() / 1e6,
                collected.count() - collectionsBefore.count(),
                collected.millis() - collectionsBefore.millis());
    }

    private record Collections(long count, long millis) {}

    /** Since the process began; each stops the loops for a while. */
    private static Collections collections() {
        long count = 0;
        long millis = 0;
        for (GarbageCollectorMXBean collector : ManagementFactory.getGarbageCollectorMXBeans()) {
            count += collector.getCollectionCount();
            millis += collector.getCollectionTime();
        }
        return new Collections(count, millis);
    }

    private static void row(Beats beats) {
        Beats.Figures f = beats.figures();
        System.out.printf(
                Locale.ROOT,
                "  %-24s %8d %9.3f %9.3f %9.3f %9.3f %9.3f   %d%n",
                beats.name(),
                f.count(),
                f.p50() / 1e6,
                f.p99() / 1e6,
                f.p999() / 1e6,
                f.max() / 1e6,
                f.spread() / 1e6,
                beats.gaps().size());
    }

    private void gaps() {
        outputs.forEach(Soak::gaps);
        gaps(empty);
    }

    private static void gaps(Beats beats) {
        for (Beats.Gap gap : beats.gaps()) {
            System.out.printf(
                    Locale.ROOT,
                    "  GAP of %s: %.1f ms, until %s%n",
                    beats.name(),
                    gap.nanos() / 1e6,
                    TIME.format(Instant.ofEpochMilli(gap.endedEpochMillis())));
        }
    }

    private static long heapInUse() {
        return ManagementFactory.getMemoryMXBean().getHeapMemoryUsage().getUsed();
    }

    /** Linux: proc(5), VmRSS in kB; 0 elsewhere. */
    private static long resident() {
        try (Stream<String> lines = Files.lines(Path.of("/proc/self/status"))) {
            return lines.filter(l -> l.startsWith("VmRSS:"))
                    .mapToLong(l -> 1024 * Long.parseLong(l.replaceAll("\\D", "")))
                    .findFirst()
                    .orElse(0);
        } catch (IOException notLinux) {
            return 0;
        }
    }

    @Override
    public void close() {
        while (!parts.isEmpty()) {
            try {
                parts.pop().close();
            } catch (Exception e) {
                System.err.println("while stopping: " + e);
            }
        }
        try (Stream<Path> files = Files.walk(dir)) {
            for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(file);
            }
        } catch (IOException leftBehind) {
            System.err.println("left behind: " + dir);
        }
    }
}
