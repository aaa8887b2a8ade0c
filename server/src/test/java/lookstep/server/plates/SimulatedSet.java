package lookstep.server.plates;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import javax.imageio.ImageIO;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.protocols.image.ExifData;
import lookstep.server.live.PlateStep;
import lookstep.server.look.LookLevels;
import lookstep.server.look.Photometry;
import lookstep.server.look.RigLevels;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.RigHash;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plan.file.DemoShoot;
import lookstep.server.prediction.Predictions;
import lookstep.server.prediction.Staging;
import lookstep.simulator.model.colour.Xyz;
import lookstep.simulator.model.light.Luminaire;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.optics.Exposure;
import lookstep.simulator.model.picture.Plates;
import lookstep.simulator.model.picture.Renderer;
import lookstep.simulator.model.plates.CodedPicture;
import lookstep.simulator.model.plates.PlateStack;
import lookstep.simulator.model.plates.Response;
import lookstep.simulator.model.scene.Scene;
import lookstep.simulator.model.space.Vec3;

/** The demo's set as it really is, its plates and its frames through 8-bit JPEG. */
public final class SimulatedSet {
    public static final ShootPlan PLAN = DemoShoot.read(GenericFixtures.all()).at("");
    public static final Shot SHOT = PLAN.shots().get(0);
    public static final Look LOOK = PLAN.look(SHOT.look());
    private static final int WIDTH = 600;
    private static final int HEIGHT = 400;

    private final Truth truth;
    private final Plates lit;
    private final Camera camera;

    /**
     * In what it differs from the plan.
     *
     * @param house times the house light
     * @param rim times what the light ‘rim’ gives
     * @param rimAside metres by which it stands to the right
     * @param people metres by which they all stand to the right
     * @param camera metres by which it stands and looks to the right
     * @param standIn one person alone
     */
    public record Truth(
            double house,
            double rim,
            double rimAside,
            double people,
            double camera,
            boolean standIn) {
        public static final Truth AS_PLANNED = new Truth(1, 1, 0, 0, 0, false);

        public Truth house(double times) {
            return new Truth(times, rim, rimAside, people, camera, standIn);
        }

        public Truth rim(double times) {
            return new Truth(house, times, rimAside, people, camera, standIn);
        }

        public Truth rimAside(double metres) {
            return new Truth(house, rim, metres, people, camera, standIn);
        }

        public Truth people(double metres) {
            return new Truth(house, rim, rimAside, metres, camera, standIn);
        }

        public Truth camera(double metres) {
            return new Truth(house, rim, rimAside, people, metres, standIn);
        }

        public Truth withStandIn() {
            return new Truth(house, rim, rimAside, people, camera, true);
        }
    }

    public SimulatedSet(Truth truth) {
        this.truth = truth;
        Camera planned = Staging.camera(PLAN, SHOT, LOOK).exact();
        Vec3 aside = new Vec3(truth.camera(), 0, 0);
        camera =
                new Camera(
                                planned.position().plus(aside),
                                planned.target().plus(aside),
                                planned.focalMillimetres(),
                                planned.fNumber(),
                                planned.seconds(),
                                planned.iso(),
                                planned.whiteBalanceKelvin())
                        .withSensor(
                                planned.sensorLongMillimetres(), planned.sensorShortMillimetres())
                        .focused(planned.focusMetres());
        Scene scene = Staging.scene(PLAN, SHOT, LOOK);
        Scene there = truth.standIn() ? Staging.standIn(scene) : scene;
        List<Luminaire> lamps = new ArrayList<>();
        for (Light light : PLAN.rig()) {
            Luminaire l = Photometry.luminaire(light);
            lamps.add(
                    light.name().equals("rim")
                            ? new Luminaire(
                                    l.position().plus(new Vec3(truth.rimAside(), 0, 0)),
                                    l.aim(),
                                    l.beamDegrees(),
                                    l.sizeMetres())
                            : l);
        }
        lit =
                Renderer.plates(
                        new Scene(
                                there.figures().stream()
                                        .map(
                                                f ->
                                                        f.at(
                                                                f.feet()
                                                                        .plus(
                                                                                new Vec3(
                                                                                        truth
                                                                                                .people(),
                                                                                        0,
                                                                                        0))))
                                        .toList(),
                                there.room(),
                                lamps,
                                there.houseLux() * truth.house()),
                        camera,
                        WIDTH,
                        HEIGHT);
    }

    /** All plates of it. */
    public MeasuredSet plates() throws IOException {
        CameraSettings set = LOOK.camera();
        List<PlateStep> steps =
                PlateSteps.of(ModelledPlates.of(PLAN, SHOT, LOOK, set, false), set.kelvin());
        List<PlateStack.Taken> taken = new ArrayList<>();
        for (PlateStep step : steps) {
            taken.add(
                    new PlateStack.Taken(
                            picture(step.rig()),
                            ModelledPlates.flat(step.rig()),
                            Exposure.scale(camera)));
        }
        return new MeasuredSet(
                "1",
                PlateStack.of(Response.SRGB, set.kelvin(), taken),
                steps,
                SHOT.id(),
                LOOK.name(),
                set,
                RigHash.of(PLAN.rig()),
                truth.standIn(),
                0,
                List.of());
    }

    /** A frame of the look as it is now. */
    public SeenPlate frame() throws IOException {
        return new SeenPlate(
                1, picture(LookLevels.of(PLAN, LOOK).levels()), ExifData.builder().build());
    }

    private CodedPicture picture(RigLevels levels) throws IOException {
        List<Xyz> sent = new ArrayList<>();
        for (int l = 0; l < PLAN.rig().size(); l++) {
            double share = PLAN.rig().get(l).name().equals("rim") ? truth.rim() : 1;
            sent.add(Photometry.intensity(PLAN.rig().get(l), levels.of(l)).times(share));
        }
        BufferedImage frame = lit.compose(sent, Predictions.houseWhite(PLAN), camera).toImage();
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ImageIO.write(frame, "jpeg", out);
        return CodedPicture.of(ImageIO.read(new ByteArrayInputStream(out.toByteArray())));
    }
}
