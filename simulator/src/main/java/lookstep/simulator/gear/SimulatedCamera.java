package lookstep.simulator.gear;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZonedDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.function.Supplier;
import lookstep.protocols.image.ExifData;
import lookstep.simulator.model.colour.DisplayRange;
import lookstep.simulator.model.colour.Xyz;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.picture.LinearPicture;
import lookstep.simulator.model.picture.Plates;
import lookstep.simulator.model.picture.Renderer;
import lookstep.simulator.model.scene.Scene;
import lookstep.simulator.model.space.Vec3;

/**
 * A camera on the simulated set: photographs what the lights do at this moment and puts its files
 * on their way. As long as nothing moves, a picture takes only the sum of its plates. One picture
 * at a time; any thread.
 */
public final class SimulatedCamera {
    private static final String LENS = "simulated %.0f mm";
    private static final String SERIAL = "LS-0001";

    private final Supplier<View> view;
    private final Supplier<LightSnapshot> lights;
    private final Clock clock;
    private final Transfer transfer;
    private final int widthPixels;
    private final int heightPixels;
    private final SensorNoise noise;
    private final Random garble;
    private CameraFiles files = CameraFiles.USUAL;
    private ToneCurve tones = ToneCurve.PLAIN;
    private PlatesKey key;
    private Plates plates;
    private int asleepFor;
    private boolean garbled;
    private boolean doubled;
    private LightSnapshot lastLit;
    private final List<Fault.OfSet> onTheSet = new ArrayList<>();

    private record PlatesKey(
            Scene scene,
            Vec3 position,
            Vec3 target,
            double focalMillimetres,
            double sensorMillimetres) {}

    /**
     * Sets the camera up; nothing is rendered until the first picture.
     *
     * @param view what is before it and what it is set to, asked at each release
     * @param lights what the lights give, asked at each release
     * @param clock for the time in the Exif, with its zone
     * @param transfer how the files leave it
     * @param widthPixels of a picture
     * @param heightPixels of a picture
     * @param seed of the grain
     */
    public SimulatedCamera(
            Supplier<View> view,
            Supplier<LightSnapshot> lights,
            Clock clock,
            Transfer transfer,
            int widthPixels,
            int heightPixels,
            long seed) {
        this.view = view;
        this.lights = lights;
        this.clock = clock;
        this.transfer = transfer;
        this.widthPixels = widthPixels;
        this.heightPixels = heightPixels;
        this.noise = new SensorNoise(seed);
        this.garble = new Random(seed);
    }

    /** A camera that makes pictures of 1200 x 800 pixels. */
    public SimulatedCamera(
            Supplier<View> view, Supplier<LightSnapshot> lights, Clock clock, Transfer transfer) {
        this(view, lights, clock, transfer, 1200, 800, 1);
    }

    /** Says what it writes, from the next picture on; {@link CameraFiles#USUAL} until then. */
    public synchronized void write(CameraFiles what) {
        files = what;
    }

    /** Sets its picture style, from the next picture on; {@link ToneCurve#PLAIN} until then. */
    public synchronized void develop(ToneCurve style) {
        tones = style;
    }

    /** Renders the plates for what is before the camera now, so that a release need not wait. */
    public synchronized void prepare() {
        platesOf(seen());
    }

    /**
     * Releases the shutter. Returns when the file is written.
     *
     * @return where the picture is; empty if the camera was asleep
     * @throws IOException if the folder cannot be written to; the message says where
     */
    public synchronized Optional<Path> photograph() throws IOException {
        if (asleepFor > 0) {
            asleepFor--;
            return Optional.empty();
        }
        ZonedDateTime now = ZonedDateTime.now(clock).plus(files.clockOffset());
        View seen = seen();
        LightSnapshot lit = lit();
        BufferedImage picture = expose(seen, lit);
        List<CameraFile> sent = Development.files(picture, exif(seen, now), files);
        if (garbled) {
            garbled = false;
            garble.nextBytes(sent.get(0).bytes());
        }
        return Optional.of(transfer.send(sent));
    }

    /** Does what the fault says, from the next picture on. */
    public synchronized void misbehave(Fault.OfCamera fault) {
        if (fault instanceof Fault.CameraAsleep asleep) {
            asleepFor = asleep.triggers();
        } else if (fault instanceof Fault.Garbled) {
            garbled = true;
        } else if (fault instanceof Fault.DoubledFrame) {
            doubled = true;
        } else {
            transfer.misbehave(fault);
        }
    }

    /** The set is otherwise from the next picture on, beside what is otherwise already. */
    public synchronized void misbehave(Fault.OfSet fault) {
        onTheSet.add(fault);
    }

    private View seen() {
        View seen = view.get();
        for (Fault.OfSet fault : onTheSet) {
            seen = fault.seen(seen);
        }
        return seen;
    }

    private LightSnapshot lit() {
        LightSnapshot lit = lights.get();
        for (Fault.OfSet fault : onTheSet) {
            lit = fault.lit(lit);
        }
        LightSnapshot shown = doubled && lastLit != null ? lastLit : lit;
        doubled = false;
        lastLit = lit;
        return shown;
    }

    /** Puts everything right again. */
    public synchronized void mend() {
        asleepFor = 0;
        garbled = false;
        doubled = false;
        onTheSet.clear();
        transfer.mend();
    }

    private Plates platesOf(View seen) {
        Camera camera = seen.camera();
        PlatesKey wanted =
                new PlatesKey(
                        seen.scene(),
                        camera.position(),
                        camera.target(),
                        camera.focalMillimetres(),
                        camera.sensorLongMillimetres());
        if (!wanted.equals(key)) {
            plates = Renderer.plates(seen.scene(), camera, widthPixels, heightPixels);
            key = wanted;
        }
        return plates;
    }

    private BufferedImage expose(View seen, LightSnapshot lit) {
        Camera camera = seen.camera();
        List<Xyz> intensities = new ArrayList<>();
        for (String name : seen.lightNames()) {
            Xyz intensity = lit.intensities().get(name);
            if (intensity == null) {
                throw new IllegalStateException(
                        "the set has a light '" + name + "' that is not on the line");
            }
            intensities.add(intensity);
        }
        LinearPicture picture =
                platesOf(seen).compose(intensities, seen.houseWhite(), camera.exact());
        double pitch = camera.sensorLongMillimetres() * 1000 / Math.max(widthPixels, heightPixels);
        return expose(picture, camera.iso(), pitch, noise, tones);
    }

    /** Grain and picture style; TYPE_INT_RGB. */
    static BufferedImage expose(
            LinearPicture picture,
            double iso,
            double pitchMicrometres,
            SensorNoise noise,
            ToneCurve tones) {
        if (tones.equals(ToneCurve.PLAIN)) {
            BufferedImage image = picture.toImage();
            noise.addTo(image, iso, pitchMicrometres);
            return image;
        }
        // Through the curve in one go: codes that were rounded before it would leave gaps.
        float[] linear = picture.toLinear();
        for (int i = 0; i < linear.length; i += 3) {
            DisplayRange.fit(linear, i);
        }
        noise.addTo(linear, iso, pitchMicrometres);
        return tones.image(linear, picture.width(), picture.height());
    }

    private static ExifData exif(View seen, ZonedDateTime now) {
        Camera camera = seen.camera();
        return ExifData.builder()
                .bodySerial(SERIAL)
                .lensModel(LENS.formatted(camera.focalMillimetres()))
                .fNumber(camera.fNumber())
                .seconds(camera.seconds())
                .iso((int) Math.round(camera.iso()))
                .focalMillimetres(camera.focalMillimetres())
                .subjectDistanceMetres(seen.focusMetres())
                .whiteBalanceKelvin(camera.whiteBalanceKelvin())
                .orientation(1)
                .takenAt(now.toLocalDateTime())
                .zone(now.getOffset())
                .build();
    }
}
