package lookstep.server.rehearsal;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.Executors;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import lookstep.protocols.wire.LinePort;
import lookstep.protocols.wire.MemoryLine;
import lookstep.protocols.wire.SerialLinePort;
import lookstep.server.gear.Gear;
import lookstep.server.gear.Gear.SerialOutput;
import lookstep.server.look.Photometry;
import lookstep.server.loop.LoopThread;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.prediction.Predictions;
import lookstep.server.prediction.Staging;
import lookstep.simulator.gear.Fault;
import lookstep.simulator.gear.LightListener;
import lookstep.simulator.gear.LightSnapshot;
import lookstep.simulator.gear.PatchedLight;
import lookstep.simulator.gear.PtyFarEnd;
import lookstep.simulator.gear.SimulatedCamera;
import lookstep.simulator.gear.SocatPair;
import lookstep.simulator.gear.View;
import lookstep.simulator.model.colour.Xyz;
import lookstep.simulator.model.scene.Scene;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The simulated set of one plan. A stand-in photographer takes a picture when a look has settled;
 * more are taken on request.
 */
public final class Rehearsal implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(Rehearsal.class);

    /** How the simulated camera's pictures get into the frames folder. */
    public enum Way {
        /** Written there, as a camera's own program on this computer would. */
        FOLDER,
        /** Uploaded over FTP. */
        FTP,
        /** Fetched over PTP/IP. */
        PTPIP
    }

    /** How the folder of a rehearsal ends, beside its plan. */
    public static final String FOLDER_ENDING = ".rehearsal";

    /** From the end of a fade to the picture: people settle (common practice: a breath). */
    private static final double SETTLE_SECONDS = 0.8;

    /** Of a simulated picture, pixels; it is as high as the sensor has it. */
    private static final int PICTURE_WIDTH = 1200;

    private static final long LOOK_AFTER_NANOS = 200_000_000;
    private static final long FAR_END_NANOS = 700_000;

    private volatile ShootPlan plan;
    private final Gear gear;
    private final LightListener lights;
    private final SimulatedCamera camera;
    private final CameraWay way;
    private final Optional<SocatPair> nodes;
    private final Optional<PtyFarEnd> farEnd;
    private final Optional<SimulatedNetwork> network;
    private final ScheduledExecutorService photographer;
    private final Optional<LoopThread> wire;
    private final Optional<LoopThread> nodesWatch;
    private volatile OnSet onSet;
    private ScheduledFuture<?> nextPicture;

    /** Who stands how, and what the camera is set to. */
    private record OnSet(Shot shot, Look look, boolean standIn) {}

    private Rehearsal(ShootPlan plan, Path folder, Path frames, Way by, Optional<Path> copies)
            throws IOException {
        this.plan = plan;
        Shot first = plan.shots().get(0);
        onSet = new OnSet(first, plan.look(first.look()), false);
        Map<Integer, List<PatchedLight>> universes = universes(plan);
        List<PatchedLight> patched =
                Optional.ofNullable(universes.remove(Gear.LINE_UNIVERSE)).orElse(List.of());
        LinePort line;
        if (SocatPair.installed().isPresent()) {
            SocatPair pair = SocatPair.start(folder);
            nodes = Optional.of(pair);
            lights = LightListener.byLength(patched);
            farEnd = Optional.of(new PtyFarEnd(pair.far(), lights));
            line = new SerialLinePort(pair.near().toString());
        } else {
            nodes = Optional.empty();
            farEnd = Optional.empty();
            lights = LightListener.byBreak(patched);
            line = new MemoryLine("simulated line", lights.behind(System::nanoTime));
        }
        Files.createDirectories(frames);
        way = CameraWay.of(by, frames, this::takeExtraPicture);
        camera =
                new SimulatedCamera(
                        this::view,
                        this::lit,
                        Clock.system(ZoneId.systemDefault()),
                        way.transfer(),
                        PICTURE_WIDTH,
                        (int)
                                Math.round(
                                        PICTURE_WIDTH
                                                * plan.around().sensor().shortMillimetres()
                                                / plan.around().sensor().longMillimetres()),
                        1);
        wire =
                farEnd.map(
                        end ->
                                LoopThread.start(
                                        "far end",
                                        now -> {
                                            end.doWork(now);
                                            return now + FAR_END_NANOS;
                                        }));
        nodesWatch = nodes.map(pair -> LoopThread.start("nodes", now -> lookAfter(pair, now)));
        photographer = thread("stand-in photographer");
        network =
                universes.isEmpty()
                        ? Optional.empty()
                        : Optional.of(SimulatedNetwork.start(universes, folder));
        gear =
                new Gear(
                        Optional.of(new SerialOutput(line, Gear.LINE_UNIVERSE)),
                        network.map(SimulatedNetwork::output),
                        frames,
                        copies,
                        way.ways(),
                        way.control(),
                        true,
                        Optional.of(
                                way.control()
                                        .<Runnable>map(c -> c::release)
                                        .orElse(this::takeExtraPicture)));
    }

    /**
     * Sets it up.
     *
     * @param folder an existing folder for the device nodes, if this machine can make any
     * @param frames where the camera's pictures arrive; made if it is not there
     * @param by how they get there
     * @param copies the second place of each original
     * @throws IOException if a folder or the nodes cannot be had
     */
    public static Rehearsal start(
            ShootPlan plan, Path folder, Path frames, Way by, Optional<Path> copies)
            throws IOException {
        return new Rehearsal(plan, folder, frames, by, copies);
    }

    private static Map<Integer, List<PatchedLight>> universes(ShootPlan plan) {
        Map<Integer, List<PatchedLight>> universes = new TreeMap<>();
        for (Light light : plan.rig()) {
            universes.computeIfAbsent(light.universe(), n -> new ArrayList<>()).add(patched(light));
        }
        return universes;
    }

    /**
     * The plan was edited, or the shoot goes on elsewhere: the room and the lights follow. A light
     * on a universe that the rehearsal did not begin with hears nothing.
     */
    public void follow(ShootPlan now) {
        plan = now;
        Map<Integer, List<PatchedLight>> universes = universes(now);
        lights.patch(Optional.ofNullable(universes.remove(Gear.LINE_UNIVERSE)).orElse(List.of()));
        network.ifPresent(n -> n.patch(universes));
    }

    /** Whether this is the name of a device node in a rehearsal's folder. */
    public static boolean owns(Path device) {
        Path folder = device.toAbsolutePath().getParent();
        return folder != null
                && folder.getFileName() != null
                && folder.getFileName().toString().endsWith(FOLDER_ENDING);
    }

    public Gear gear() {
        return gear;
    }

    /**
     * The people go to their places for this shot, the camera is set as the look wants it, and no
     * picture is taken.
     */
    public void place(Shot next, Look look) {
        place(new OnSet(next, look, false));
    }

    private void place(OnSet next) {
        onSet = next;
        // What does not hang on the light is worked out while the fade runs.
        photographer.execute(this::prepare);
    }

    /**
     * The same for plates, of which each frame is taken on request.
     *
     * @param standIn one person in the middle instead of those of the shot
     */
    public synchronized void placeForPlates(Shot next, Look look, boolean standIn) {
        if (nextPicture != null) {
            nextPicture.cancel(false);
        }
        place(new OnSet(next, look, standIn));
    }

    /** Does what the fault says, from the next picture on. */
    public void misbehave(Fault fault) {
        if (fault instanceof Fault.OfCamera ofCamera) {
            camera.misbehave(ofCamera);
        } else if (fault instanceof Fault.OfSet ofSet) {
            camera.misbehave(ofSet);
        } else {
            throw new IllegalArgumentException("not of the set or its camera: " + fault);
        }
    }

    /**
     * The people go to their places for this shot, the camera is set for it, and when the light has
     * settled the stand-in takes a picture.
     */
    public synchronized void perform(Shot next, Look look) {
        place(next, look);
        if (nextPicture != null) {
            nextPicture.cancel(false);
        }
        takePicture(look.fadeSeconds() + SETTLE_SECONDS);
    }

    private synchronized void takePicture(double inSeconds) {
        nextPicture = later(this::photograph, inSeconds);
    }

    /** On request; the one that is due when the light has settled comes all the same. */
    private void takeExtraPicture() {
        photographer.execute(this::photograph);
    }

    private ScheduledFuture<?> later(Runnable what, double inSeconds) {
        try {
            return photographer.schedule(what, Math.round(inSeconds * 1000), TimeUnit.MILLISECONDS);
        } catch (RejectedExecutionException closing) {
            LOG.debug("no more pictures: the rehearsal ends");
            return null;
        }
    }

    /**
     * If the nodes go, their names must not lead to a terminal that somebody else opens meanwhile.
     */
    private static long lookAfter(SocatPair pair, long nowNanos) {
        if (!pair.plugged()) {
            pair.unplug();
            try {
                pair.replug();
            } catch (IOException e) {
                LOG.error("the simulated line is gone: {}", e.getMessage());
            }
        }
        return nowNanos + LOOK_AFTER_NANOS;
    }

    private void prepare() {
        try {
            camera.prepare();
        } catch (RuntimeException e) {
            LOG.error("the simulated set cannot be rendered: {}", e.getMessage(), e);
        }
    }

    private void photograph() {
        try {
            camera.photograph();
        } catch (IOException e) {
            LOG.error("the simulated camera took no picture: {}", e.toString());
        } catch (RuntimeException e) {
            LOG.error("the simulated camera took no picture: {}", e.getMessage(), e);
        }
    }

    private View view() {
        OnSet now = onSet;
        ShootPlan there = plan;
        Scene scene = Staging.scene(there, now.shot(), now.look());
        return new View(
                now.standIn() ? Staging.standIn(scene) : scene,
                there.rig().stream().map(Light::name).toList(),
                Predictions.houseWhite(there),
                way.dials().apply(Staging.camera(there, now.shot(), now.look())));
    }

    /** What the lights give, on the line and on the network. */
    private LightSnapshot lit() {
        LightSnapshot onLine = lights.snapshot();
        Map<String, Xyz> listened = new HashMap<>(onLine.intensities());
        network.ifPresent(n -> listened.putAll(n.snapshot().intensities()));
        Map<String, Xyz> all = new LinkedHashMap<>();
        for (Light light : plan.rig()) {
            // one that came later, on a universe that nobody listens to here, is dark
            all.put(light.name(), listened.getOrDefault(light.name(), Xyz.ZERO));
        }
        long packets = onLine.packets() + network.map(n -> n.snapshot().packets()).orElse(0L);
        return new LightSnapshot(all, packets);
    }

    private static PatchedLight patched(Light light) {
        return new PatchedLight(
                light.name(), Photometry.modified(light), light.mode(), light.startSlot());
    }

    private static ScheduledExecutorService thread(String name) {
        return Executors.newSingleThreadScheduledExecutor(
                r -> {
                    Thread t = new Thread(r, name);
                    t.setDaemon(true);
                    return t;
                });
    }

    @Override
    public void close() {
        photographer.shutdownNow();
        nodesWatch.ifPresent(LoopThread::close);
        wire.ifPresent(LoopThread::close);
        network.ifPresent(SimulatedNetwork::close);
        way.end().run();
        farEnd.ifPresent(PtyFarEnd::close);
        nodes.ifPresent(SocatPair::close);
    }
}
