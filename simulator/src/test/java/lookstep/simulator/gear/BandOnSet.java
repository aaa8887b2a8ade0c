package lookstep.simulator.gear;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import javax.imageio.ImageIO;
import lookstep.simulator.model.colour.Chromaticity;
import lookstep.simulator.model.colour.DisplayRange;
import lookstep.simulator.model.colour.Planck;
import lookstep.simulator.model.colour.Xyz;
import lookstep.simulator.model.light.Luminaire;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.optics.Exposure;
import lookstep.simulator.model.picture.LinearPicture;
import lookstep.simulator.model.picture.Plates;
import lookstep.simulator.model.picture.Renderer;
import lookstep.simulator.model.scene.Arrangement;
import lookstep.simulator.model.scene.Figure;
import lookstep.simulator.model.scene.Positions;
import lookstep.simulator.model.scene.Reflectance;
import lookstep.simulator.model.scene.Room;
import lookstep.simulator.model.scene.Scene;
import lookstep.simulator.model.space.Vec3;

/**
 * A band of five in a room with four lights, as a camera would have it: rendered, exposed with
 * grain and picture style, written as JPEG and read again. Lights: key and fill of a warm and a
 * cold emitter, a cold rim, and a rim of red, green, blue and white; nine emitters.
 */
public final class BandOnSet {
    /** Of each emitter its light: key, key, fill, fill, rim, colour x 4. */
    public static final List<Integer> LIGHT_OF = List.of(0, 0, 1, 1, 2, 3, 3, 3, 3);

    public static final int EMITTERS = LIGHT_OF.size();
    public static final int LIGHTS = 4;
    public static final double KELVIN = 4200;

    private static final Xyz HOUSE = Planck.chromaticity(2900).toXyz(1);
    private static final List<Xyz> FULL =
            List.of(
                    Planck.chromaticity(2800).toXyz(5200),
                    Planck.chromaticity(6200).toXyz(5600),
                    Planck.chromaticity(2800).toXyz(2600),
                    Planck.chromaticity(6200).toXyz(2800),
                    Planck.chromaticity(5600).toXyz(7000),
                    new Chromaticity(0.69, 0.308).toXyz(1500),
                    new Chromaticity(0.17, 0.70).toXyz(3000),
                    new Chromaticity(0.14, 0.05).toXyz(500),
                    Planck.chromaticity(6000).toXyz(4500));

    private final Plates plates;
    private final Scene scene;
    private final int width;
    private final int height;

    private BandOnSet(Scene scene, Camera camera, int width, int height) {
        this.scene = scene;
        this.width = width;
        this.height = height;
        this.plates = Renderer.plates(scene, camera, width, height);
    }

    /** The usual one, 600 x 400, rendered once. */
    public static BandOnSet usual() {
        return Usual.SET;
    }

    private static final class Usual {
        static final BandOnSet SET = BandOnSet.of(600, 400);
    }

    /** Rendered at once. */
    public static BandOnSet of(int width, int height) {
        return new BandOnSet(scene(standing(0)), camera(), width, height);
    }

    /** The same set with other people places, lamps or camera. */
    public static BandOnSet of(Scene scene, Camera camera, int width, int height) {
        return new BandOnSet(scene, camera, width, height);
    }

    public Plates plates() {
        return plates;
    }

    public Scene scene() {
        return scene;
    }

    public int width() {
        return width;
    }

    public int height() {
        return height;
    }

    /** Full frame, 50 mm, f/4, 1/125 s, ISO 2500. */
    public static Camera camera() {
        return new Camera(
                new Vec3(0, -4.6, 1.35), new Vec3(0, 0.3, 1.0), 50, 4, 1 / 125.0, 2500, KELVIN);
    }

    public static double scale() {
        return Exposure.scale(camera());
    }

    /** Levels, all 0. */
    public static double[] off() {
        return new double[EMITTERS];
    }

    /** Levels with one pair of place and level after another. */
    public static double[] levels(double... pairs) {
        double[] levels = off();
        for (int i = 0; i < pairs.length; i += 2) {
            levels[(int) pairs[i]] = pairs[i + 1];
        }
        return levels;
    }

    /** What the rendered scene has in linear light, not clipped. */
    public LinearPicture linear(double house, double[] levels, Camera settings) {
        List<Xyz> intensities = new ArrayList<>();
        for (int l = 0; l < LIGHTS; l++) {
            Xyz sum = Xyz.ZERO;
            for (int e = 0; e < EMITTERS; e++) {
                if (LIGHT_OF.get(e) == l) {
                    sum = sum.plus(FULL.get(e).times(levels[e]));
                }
            }
            intensities.add(sum);
        }
        return plates.compose(intensities, HOUSE.times(house), settings);
    }

    /** Through grain, style and JPEG of quality 0.92; the same seed has the same grain. */
    public BufferedImage frame(
            double house, double[] levels, Camera settings, ToneCurve style, long seed) {
        return jpeg(exposed(house, levels, settings, style, seed));
    }

    /** Through grain and style alone. */
    public BufferedImage exposed(
            double house, double[] levels, Camera settings, ToneCurve style, long seed) {
        return SimulatedCamera.expose(
                linear(house, levels, settings),
                settings.iso(),
                settings.sensorLongMillimetres() * 1000 / width,
                new SensorNoise(seed),
                style);
    }

    /** Neither grain nor JPEG, only style and codes. */
    public BufferedImage clean(double house, double[] levels, Camera settings, ToneCurve style) {
        return image(linear(house, levels, settings).toLinear(), style);
    }

    /** Linear red, green, blue of this set's size as the camera writes them, without grain. */
    public BufferedImage image(float[] rgb, ToneCurve style) {
        float[] linear = rgb.clone();
        for (int i = 0; i < linear.length; i += 3) {
            DisplayRange.fit(linear, i);
        }
        return style.image(linear, width, height);
    }

    public static BufferedImage jpeg(BufferedImage picture) {
        try {
            return ImageIO.read(new ByteArrayInputStream(JpegFile.encode(picture, 0.92f)));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Where five stand, moved so far to the right. */
    public static List<Vec3> standing(double right) {
        List<Vec3> places =
                Positions.of(
                        new Arrangement(Arrangement.Kind.WEDGE, true, 0.62, 0.6, List.of()), 5);
        return places.stream().map(p -> p.plus(new Vec3(right, 0, 0))).toList();
    }

    public static Scene scene(List<Vec3> places) {
        return scene(places, lamps());
    }

    public static List<Luminaire> lamps() {
        return new ArrayList<>(
                Arrays.asList(
                        new Luminaire(new Vec3(-2.2, -2.8, 2.5), new Vec3(0, 0.2, 1.35), 70, 0.9),
                        new Luminaire(new Vec3(2.6, -3.0, 1.9), new Vec3(0, 0.2, 1.3), 80, 1.2),
                        new Luminaire(new Vec3(-2.0, 2.5, 3.0), new Vec3(0, 0.3, 1.4), 50, 0.3),
                        new Luminaire(new Vec3(2.0, 2.5, 3.0), new Vec3(0, 0.3, 1.4), 50, 0.3)));
    }

    public static Scene scene(List<Vec3> places, List<Luminaire> lamps) {
        double[][] skins = {
            {0.42, 0.28, 0.21},
            {0.14, 0.085, 0.06},
            {0.36, 0.235, 0.175},
            {0.25, 0.155, 0.105},
            {0.45, 0.31, 0.25}
        };
        double[][] hairs = {
            {0.05, 0.032, 0.022},
            {0.02, 0.017, 0.015},
            {0.16, 0.075, 0.035},
            {0.03, 0.022, 0.018},
            {0.28, 0.20, 0.11}
        };
        double[][] tops = {
            {0.03, 0.03, 0.035},
            {0.30, 0.05, 0.04},
            {0.05, 0.055, 0.075},
            {0.35, 0.33, 0.29},
            {0.035, 0.06, 0.055}
        };
        double[] heights = {1.68, 1.82, 1.74, 1.79, 1.65};
        List<Figure> figures = new ArrayList<>();
        for (int i = 0; i < places.size(); i++) {
            figures.add(
                    new Figure(
                            places.get(i),
                            18 - 9 * i,
                            heights[i],
                            of(skins[i]),
                            of(hairs[i]),
                            of(tops[i]),
                            new Reflectance(0.03 + 0.01 * i, 0.03, 0.035),
                            i + 1));
        }
        Room room =
                new Room(
                        7,
                        10,
                        3.4,
                        3.2,
                        new Reflectance(0.16, 0.085, 0.06),
                        Reflectance.grey(0.10),
                        new Reflectance(0.14, 0.10, 0.08));
        return new Scene(figures, room, lamps, 12);
    }

    private static Reflectance of(double[] c) {
        return new Reflectance(c[0], c[1], c[2]);
    }
}
