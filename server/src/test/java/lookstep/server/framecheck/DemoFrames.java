package lookstep.server.framecheck;

import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiFunction;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.protocols.image.ExifData;
import lookstep.server.look.LookLevels;
import lookstep.server.plan.Look;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plan.file.DemoShoot;
import lookstep.server.prediction.Predictions;
import lookstep.server.prediction.Staging;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.picture.Plates;
import lookstep.simulator.model.picture.Renderer;
import lookstep.simulator.model.scene.Figure;
import lookstep.simulator.model.scene.Scene;
import lookstep.simulator.model.space.Vec3;

/** Frames of the demo shoot, rendered small, with people and camera where a test wants them. */
final class DemoFrames {
    static final ShootPlan PLAN = DemoShoot.read(GenericFixtures.all());
    static final int WIDTH = 480;
    static final int HEIGHT = 320;

    /** What the plan means, without noise. */
    static final Predicted PREDICTED = (shot, look) -> Optional.of(of(shot, look).picture());

    private static final int MOST_PLATES = 16;
    private static final Map<Stage, Plates> PLATES =
            new LinkedHashMap<>() {
                @Override
                protected boolean removeEldestEntry(Map.Entry<Stage, Plates> eldest) {
                    return size() > MOST_PLATES;
                }
            };

    private record Stage(
            Scene scene, Vec3 position, Vec3 target, double lens, int width, int height) {}

    private DemoFrames() {}

    static Shot shot(String id) {
        return PLAN.shots().stream().filter(s -> s.id().equals(id)).findFirst().orElseThrow();
    }

    static Look look(Shot shot) {
        return PLAN.look(shot.look());
    }

    /** As planned. */
    static DemoFrame of(Shot shot, Look look) {
        return new DemoFrame(
                Staging.scene(PLAN, shot), Staging.camera(PLAN, shot, look), shot, look);
    }

    static DemoFrame of(String shotId) {
        Shot shot = shot(shotId);
        return of(shot, look(shot));
    }

    static synchronized Plates plates(Scene scene, Camera c, int width, int height) {
        return PLATES.computeIfAbsent(
                new Stage(scene, c.position(), c.target(), c.focalMillimetres(), width, height),
                key -> Renderer.plates(scene, c, width, height));
    }

    /** Everything that a picture is made of. */
    record DemoFrame(Scene scene, Camera camera, Shot shot, Look look) {
        DemoFrame set(double fNumber, double seconds, double iso) {
            return new DemoFrame(scene, camera.withExposure(fNumber, seconds, iso), shot, look);
        }

        DemoFrame aimed(double right, double up) {
            Camera c = camera;
            return new DemoFrame(
                    scene,
                    new Camera(
                            c.position(),
                            c.target().plus(new Vec3(right, 0, up)),
                            c.focalMillimetres(),
                            c.fNumber(),
                            c.seconds(),
                            c.iso(),
                            c.whiteBalanceKelvin()),
                    shot,
                    look);
        }

        /** Moves each person's feet. */
        DemoFrame standing(BiFunction<Integer, Vec3, Vec3> move) {
            List<Figure> figures = new ArrayList<>();
            for (int i = 0; i < scene.figures().size(); i++) {
                Figure f = scene.figures().get(i);
                figures.add(
                        new Figure(
                                move.apply(i, f.feet()),
                                f.turnDegrees(),
                                f.heightMetres(),
                                f.skin(),
                                f.hair(),
                                f.top(),
                                f.bottom(),
                                f.seed()));
            }
            return new DemoFrame(
                    new Scene(figures, scene.room(), scene.luminaires(), scene.houseLux()),
                    camera,
                    shot,
                    look);
        }

        Plates plates() {
            return DemoFrames.plates(scene, camera, WIDTH, HEIGHT);
        }

        BufferedImage picture() {
            return compose(plates());
        }

        BufferedImage compose(Plates plates) {
            return plates.compose(
                            Predictions.intensities(PLAN, LookLevels.of(PLAN, look).levels()),
                            Predictions.houseWhite(PLAN),
                            camera.exact())
                    .toImage();
        }

        ExifData.Builder exif() {
            return ExifData.builder()
                    .fNumber(camera.fNumber())
                    .seconds(camera.seconds())
                    .iso((int) camera.iso())
                    .focalMillimetres(camera.focalMillimetres())
                    .whiteBalanceKelvin(camera.whiteBalanceKelvin());
        }

        /** Two codes of noise, as at a high ISO after thinning to a preview. */
        Taken taken() {
            return taken(DiscBlur.noisy(picture(), 2, 11), exif().build());
        }

        Taken taken(BufferedImage picture, ExifData exif) {
            return new Taken(7, shot, look, exif, picture, Optional.empty(), List.of());
        }
    }

    /** The remark of a kind; fails if there is none. */
    static Remark remark(FrameReport report, Kind kind) {
        return report.remarks().stream()
                .filter(r -> r.kind() == kind)
                .findFirst()
                .orElseThrow(() -> new AssertionError("no " + kind + " in " + report.remarks()));
    }

    static FrameReport check(Taken taken) {
        return new FrameChecks(PLAN, PREDICTED).check(taken);
    }
}
