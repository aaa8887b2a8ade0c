package lookstep.simulator.model.picture;

import java.io.File;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.ArrayList;
import java.util.List;
import javax.imageio.ImageIO;
import lookstep.simulator.model.colour.Planck;
import lookstep.simulator.model.colour.Xyz;
import lookstep.simulator.model.light.Luminaire;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.scene.Arrangement;
import lookstep.simulator.model.scene.Figure;
import lookstep.simulator.model.scene.Positions;
import lookstep.simulator.model.scene.Reflectance;
import lookstep.simulator.model.scene.Room;
import lookstep.simulator.model.scene.Scene;
import lookstep.simulator.model.space.Vec3;

/** Renders a band of five for looking at: {@code DemoPicture [directory [width height]]}. */
public final class DemoPicture {
    private DemoPicture() {}

    public static void main(String[] args) throws IOException {
        File directory = new File(args.length > 0 ? args[0] : "/tmp");
        int width = args.length > 2 ? Integer.parseInt(args[1]) : 1200;
        int height = args.length > 2 ? Integer.parseInt(args[2]) : 800;
        Scene scene = scene();
        Camera camera =
                new Camera(
                        new Vec3(0, -4.6, 1.35),
                        new Vec3(0, 0.3, 1.0),
                        50,
                        5.6,
                        1 / 125.0,
                        1600,
                        3000);
        ThreadMXBean cpu = ManagementFactory.getThreadMXBean();
        long start = cpu.getCurrentThreadCpuTime();
        Plates plates = Renderer.plates(scene, camera, width, height);
        System.out.printf("plates %.2f s%n", (cpu.getCurrentThreadCpuTime() - start) / 1e9);
        Xyz off = Xyz.ZERO;
        Xyz warm = Planck.chromaticity(3000).toXyz(1);
        Xyz cold = Planck.chromaticity(5600).toXyz(1);
        double[][] looks = {
            {11000, 2000, 12000, 12000}, {0, 0, 9000, 9000}, {13000, 0, 0, 0}, {11000, 5000, 0, 0}
        };
        String[] names = {"warm-cold", "rim", "key", "front"};
        for (int i = 0; i < looks.length; i++) {
            List<Xyz> light = new ArrayList<>();
            for (int k = 0; k < 4; k++) {
                light.add(looks[i][k] == 0 ? off : (k < 2 ? warm : cold).times(looks[i][k]));
            }
            start = cpu.getCurrentThreadCpuTime();
            LinearPicture picture = plates.compose(light, warm, camera);
            long composed = cpu.getCurrentThreadCpuTime();
            ImageIO.write(
                    picture.toImage(), "png", new File(directory, "demo-" + names[i] + ".png"));
            System.out.printf(
                    "%s: compose %.0f ms, separation %.1f stops%n",
                    names[i], (composed - start) / 1e6, picture.separationStops(0));
        }
        faces(scene, directory);
    }

    private static void faces(Scene scene, File directory) throws IOException {
        Camera close =
                new Camera(
                        new Vec3(0, -2.4, 1.6),
                        new Vec3(0, 0.2, 1.58),
                        40,
                        5.6,
                        1 / 125.0,
                        1600,
                        3000);
        Xyz warm = Planck.chromaticity(3000).toXyz(1);
        Xyz cold = Planck.chromaticity(5600).toXyz(1);
        List<Xyz> light =
                List.of(warm.times(11000), warm.times(2000), cold.times(12000), cold.times(12000));
        LinearPicture picture =
                Renderer.plates(scene, close, 1500, 540).compose(light, warm, close);
        ImageIO.write(picture.toImage(), "png", new File(directory, "demo-faces.png"));
    }

    static Scene scene() {
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
        double[][] bottoms = {
            {0.02, 0.02, 0.022},
            {0.03, 0.03, 0.035},
            {0.05, 0.065, 0.11},
            {0.025, 0.025, 0.025},
            {0.08, 0.06, 0.045}
        };
        double[] heights = {1.68, 1.82, 1.74, 1.79, 1.65};
        double[] turns = {18, 8, -3, -10, -20};
        List<Vec3> places =
                Positions.of(
                        new Arrangement(Arrangement.Kind.WEDGE, true, 0.55, 0.6, List.of()), 5);
        List<Figure> figures = new ArrayList<>();
        for (int i = 0; i < 5; i++) {
            figures.add(
                    new Figure(
                            places.get(i),
                            turns[i],
                            heights[i],
                            of(skins[i]),
                            of(hairs[i]),
                            of(tops[i]),
                            of(bottoms[i]),
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
        List<Luminaire> lamps =
                List.of(
                        new Luminaire(new Vec3(-2.2, -2.8, 2.5), new Vec3(0, 0.2, 1.35), 70, 0.9),
                        new Luminaire(new Vec3(2.6, -3.0, 1.9), new Vec3(0, 0.2, 1.3), 80, 1.2),
                        new Luminaire(new Vec3(-2.0, 2.5, 3.0), new Vec3(0, 0.3, 1.4), 50, 0.3),
                        new Luminaire(new Vec3(2.0, 2.5, 3.0), new Vec3(0, 0.3, 1.4), 50, 0.3));
        return new Scene(figures, room, lamps, 6);
    }

    private static Reflectance of(double[] c) {
        return new Reflectance(c[0], c[1], c[2]);
    }
}
