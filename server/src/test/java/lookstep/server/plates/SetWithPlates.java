package lookstep.server.plates;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.UnaryOperator;
import javax.imageio.ImageIO;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.protocols.image.ExifData;
import lookstep.protocols.image.ExifReader;
import lookstep.server.lighting.Lightings;
import lookstep.server.lighting.Shown;
import lookstep.server.live.Event.FileMark;
import lookstep.server.live.Event.PlatesBegun;
import lookstep.server.live.Frame;
import lookstep.server.live.Journal;
import lookstep.server.live.Live;
import lookstep.server.live.LiveState;
import lookstep.server.live.PlateRun;
import lookstep.server.live.ShotFacts;
import lookstep.server.look.Photometry;
import lookstep.server.plan.Light;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plan.file.DemoShoot;
import lookstep.server.prediction.Predictions;
import lookstep.server.prediction.Staging;
import lookstep.simulator.gear.CameraFile;
import lookstep.simulator.gear.Fault;
import lookstep.simulator.gear.LightSnapshot;
import lookstep.simulator.gear.SimulatedCamera;
import lookstep.simulator.gear.Transfer;
import lookstep.simulator.gear.View;
import lookstep.simulator.model.colour.Xyz;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.plates.CodedPicture;
import lookstep.simulator.model.plates.Registration.Motion;
import lookstep.simulator.model.plates.Registration.Shift;

/**
 * The demo with a simulated camera, on a clock that only moves when it is told to. The light is
 * there at once, and a frame comes a moment after its release.
 */
final class SetWithPlates implements AutoCloseable {
    /** 2026-11-25T21:00:00Z. */
    static final long NINE = 1_795_640_400_000L;

    static final long MILLI = 1_000_000;
    private final Path dir;
    final Lightings lightings = new Lightings(DemoShoot.read(GenericFixtures.all()));
    private final Map<String, byte[]> files = new HashMap<>();
    private final Deque<Coming> coming = new ArrayDeque<>();
    private final SimulatedCamera camera;
    private Journal journal;
    Live live;
    PlateTaker taker;
    long nowNanos = 5;
    int releases;
    long wayMillis = 300;
    boolean canRelease = true;
    boolean hand;
    boolean wholeSeconds;
    boolean arrived = true;
    UnaryOperator<Camera> dials = c -> c;
    Shift shift = new Shift(0, 0, 0.9);
    UnaryOperator<SeenPlate> eye = s -> s;
    private String sent = "";

    private record Coming(long atNanos, String name) {}

    SetWithPlates(Path dir) throws IOException {
        this.dir = dir;
        camera =
                new SimulatedCamera(
                        this::view,
                        this::lit,
                        new Clock() {
                            @Override
                            public ZoneId getZone() {
                                return ZoneOffset.UTC;
                            }

                            @Override
                            public Clock withZone(ZoneId zone) {
                                return this;
                            }

                            @Override
                            public Instant instant() {
                                return Instant.ofEpochMilli(epochMillis());
                            }
                        },
                        new Sent(),
                        240,
                        160,
                        1);
        open();
    }

    private void open() throws IOException {
        journal = Journal.open(dir.resolve("journal"));
        live = new Live(journal, lightings::possible, "hash", this::epochMillis);
        taker =
                new PlateTaker(
                        live,
                        lightings,
                        now -> arrived,
                        hand ? Optional.empty() : Optional.of(new FromHere()),
                        this::seen,
                        this::moved,
                        this::epochMillis,
                        () -> {});
    }

    /** The program was killed, and is there again. */
    void restart() throws IOException {
        journal.close();
        open();
    }

    long epochMillis() {
        return NINE + nowNanos / MILLI;
    }

    private Motion moved(CodedPicture one, CodedPicture other) {
        return new Motion(shift, 0, 1, 0, shift.certainty());
    }

    private final class FromHere implements Shutter {
        @Override
        public boolean canRelease() {
            return canRelease;
        }

        @Override
        public void release() {
            releases++;
            photograph();
        }
    }

    private final class Sent implements Transfer {
        @Override
        public Path send(List<CameraFile> all) {
            sent = "LS_%04d.JPG".formatted(files.size() + 1);
            files.put(sent, all.get(0).bytes());
            return Path.of(sent);
        }

        @Override
        public void misbehave(Fault.OfCamera fault) {
            throw new IllegalArgumentException("not of this set: " + fault);
        }

        @Override
        public void mend() {}
    }

    /** Somebody releases the camera; the frame comes a moment later, if it takes one. */
    void photograph() {
        try {
            camera.photograph()
                    .ifPresent(path -> coming.add(new Coming(nowNanos + wayMillis * MILLI, sent)));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    void misbehave(Fault fault) {
        if (fault instanceof Fault.OfSet set) {
            camera.misbehave(set);
        } else {
            camera.misbehave((Fault.OfCamera) fault);
        }
    }

    void mend() {
        camera.mend();
    }

    private ShootPlan plan() {
        return lightings.of(live.state()).plan();
    }

    private View view() {
        LiveState state = live.state();
        Shot shot = lightings.of(state).shot(state);
        Shown shown = lightings.of(state).shown(state);
        boolean standIn = state.plates().run().map(r -> r.begun().standIn()).orElse(false);
        ShootPlan plan = plan().placed(shown.look());
        return new View(
                standIn
                        ? Staging.standIn(Staging.scene(plan, shot, shown.look()))
                        : Staging.scene(plan, shot, shown.look()),
                plan.rig().stream().map(Light::name).toList(),
                Predictions.houseWhite(plan),
                dials.apply(Staging.camera(plan, shot, shown.look())));
    }

    private LightSnapshot lit() {
        LiveState state = live.state();
        Shown shown = lightings.of(state).shown(state);
        Map<String, Xyz> sentOut = new HashMap<>();
        for (int i = 0; i < plan().rig().size(); i++) {
            Light light = plan().rig().get(i);
            sentOut.put(light.name(), Photometry.intensity(light, shown.levels().of(i)));
        }
        return new LightSnapshot(sentOut, 1);
    }

    Optional<SeenPlate> seen(Frame frame) {
        byte[] jpeg = files.get(frame.file().path());
        try {
            return Optional.of(
                    eye.apply(
                            new SeenPlate(
                                    frame.number(),
                                    CodedPicture.of(ImageIO.read(new ByteArrayInputStream(jpeg))),
                                    ExifReader.read(jpeg).data())));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Begins with one stand-in. */
    PlatesBegun begin() throws Exception {
        PlatesBegun begun =
                PlateBeginning.of(lightings.of(live.state()), live.state(), true, epochMillis());
        live.beginPlates(begun);
        return begun;
    }

    PlateRun run() {
        return live.state().plates().run().orElseThrow();
    }

    /** Lets time pass, in the taker's own steps. */
    void pass(double seconds) throws IOException {
        long end = nowNanos + Math.round(seconds * 1e9);
        while (nowNanos < end) {
            deliver();
            long next = taker.doWork(nowNanos);
            long frame = coming.isEmpty() ? Long.MAX_VALUE : coming.peek().atNanos();
            nowNanos = Math.max(nowNanos + 1, Math.min(end, Math.min(next, frame)));
        }
        deliver();
        taker.doWork(nowNanos);
    }

    /** Until something holds, and not for ever. */
    void passUntil(java.util.function.BooleanSupplier holds) throws IOException {
        for (int i = 0; i < 12_000 && !holds.getAsBoolean(); i++) {
            pass(0.02);
        }
        if (!holds.getAsBoolean()) {
            throw new AssertionError("nothing came of it: " + taker.taking());
        }
    }

    private void deliver() throws IOException {
        while (!coming.isEmpty() && coming.peek().atNanos() <= nowNanos) {
            String name = coming.remove().name();
            ExifData exif = ExifReader.read(files.get(name)).data();
            live.frameTaken(
                    new Live.Arrival(
                            new FileMark(name, files.get(name).length, 1),
                            "body one",
                            exif.takenAt().map(this::written).orElse(""),
                            "",
                            epochMillis()),
                    id ->
                            lightings
                                    .shot(live.state(), id)
                                    .map(ShotFacts::of)
                                    .orElse(ShotFacts.NONE));
        }
    }

    private String written(LocalDateTime taken) {
        return (wholeSeconds ? taken.withNano(0) : taken).toString();
    }

    @Override
    public void close() {
        journal.close();
    }
}
