package lookstep.server.framecheck;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.nio.charset.StandardCharsets;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.file.DemoShoot;
import lookstep.server.plan.file.PlanReader;
import lookstep.server.plan.file.PlanReading;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.space.Vec3;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Originals of 3000 by 2000 pixels, rendered around the faces only, and blurred by the disc that
 * the thin lens gives for each: {@code f^2 / (N (s - f)) x |d - s| / d} on the sensor.
 */
class SharpnessTest {
    private static final int WIDE = 3000;
    private static final int HIGH = 2000;

    /** A face's distance from the front row, metres, to the disc in pixels. */
    record Original(DemoFrames.DemoFrame frame, ToDoubleFunction<FacePlace> disc)
            implements DetailSource {
        @Override
        public Optional<BufferedImage> region(int x, int y, int w, int h) {
            Camera c = frame.camera();
            double perPixel = 36 / c.focalMillimetres() / WIDE;
            double right = (x + w / 2.0 - WIDE / 2.0) * perPixel;
            double up = (HIGH / 2.0 - y - h / 2.0) * perPixel;
            Vec3 forward = c.target().minus(c.position()).unit();
            Vec3 across = forward.cross(new Vec3(0, 0, 1)).unit();
            Vec3 ray = forward.plus(across.times(right)).plus(across.cross(forward).times(up));
            Camera near =
                    new Camera(
                            c.position(),
                            c.position().plus(ray.times(3)),
                            36 / perPixel / Math.max(w, h),
                            c.fNumber(),
                            c.seconds(),
                            c.iso(),
                            c.whiteBalanceKelvin());
            FacePlace whose =
                    FacePlace.of(DemoFrames.PLAN, frame.shot(), frame.look(), WIDE, HIGH).stream()
                            .min(
                                    Comparator.comparing(
                                            p ->
                                                    Math.hypot(
                                                            p.metre().centreX() * WIDE
                                                                    - x
                                                                    - w / 2.0,
                                                            p.metre().centreY() * HIGH
                                                                    - y
                                                                    - h / 2.0)))
                            .orElseThrow();
            BufferedImage sharp = frame.compose(DemoFrames.plates(frame.scene(), near, w, h));
            return Optional.of(DiscBlur.noisy(DiscBlur.of(sharp, disc.applyAsDouble(whose)), 3, x));
        }

        @Override
        public int width() {
            return WIDE;
        }

        @Override
        public int height() {
            return HIGH;
        }
    }

    private static double thinLens(double f, double n, double focus, double distance) {
        double millimetres =
                f * f / (n * (focus * 1000 - f)) * Math.abs(distance - focus) / distance;
        return millimetres / 36 * WIDE;
    }

    private static FrameReport check(DemoFrames.DemoFrame frame, ToDoubleFunction<FacePlace> disc) {
        Taken t = frame.taken();
        return DemoFrames.check(
                new Taken(
                        1,
                        t.shot(),
                        t.look(),
                        t.exif(),
                        t.preview(),
                        Optional.of(new Original(frame, disc)),
                        List.of()));
    }

    /** Two rows 0.6 m apart, 50 mm, 3.2 m: 5.2 pixels at f/2, and at f/8 a quarter of it. */
    @Test
    void theBackRowOpenAndStoppedDown() {
        DemoFrames.DemoFrame planned = DemoFrames.of("tight-five");
        assertEquals(5.2, thinLens(50, 2, 3.2, 3.8), 0.1);
        // Four stops of aperture, four of ISO.
        DemoFrames.DemoFrame open = planned.set(2, 1 / 100.0, 400);
        Remark softer =
                DemoFrames.remark(
                        check(open, p -> thinLens(50, 2, 3.2, 3.2 + p.behindMetres())),
                        Kind.SHARPNESS);
        assertTrue(
                softer.says()
                        .startsWith(
                                "the back row (Quill, Marlo and Petra) is softer than the front"
                                        + " row: 0."),
                softer.says());
        assertTrue(softer.value() > 0.3 && softer.value() < 0.6, softer.says());
        Remark equal =
                DemoFrames.remark(
                        check(planned, p -> thinLens(50, 8, 3.2, 3.2 + p.behindMetres())),
                        Kind.SHARPNESS);
        assertEquals(Weight.GOOD, equal.weight(), equal.says());
    }

    @Test
    void theFocusLiesBehind() {
        Remark softer =
                DemoFrames.remark(
                        check(
                                DemoFrames.of("tight-five"),
                                p -> thinLens(50, 1.4, 3.8, 3.2 + p.behindMetres())),
                        Kind.SHARPNESS);
        assertTrue(
                softer.says()
                        .startsWith(
                                "the front row (Ines and Tovah) is softer than the back row: 0."),
                softer.says());
        assertEquals(Weight.WRONG, softer.weight(), softer.says());
        assertTrue(softer.says().endsWith("; focus on the nearest face again"), softer.says());
    }

    @Test
    void oneSide() {
        Remark softer =
                DemoFrames.remark(
                        check(DemoFrames.of("spread"), p -> p.metre().centreX() > 0.5 ? 6 : 0),
                        Kind.SHARPNESS);
        assertTrue(
                softer.says().startsWith("the right (Tovah) is softer than the left: 0."),
                softer.says());
    }

    /** 12 pixels of 0.012 mm are 0.144 mm. */
    @Test
    void nothingIsSharp() {
        Remark soft = DemoFrames.remark(check(DemoFrames.of("spread"), p -> 12), Kind.SHARPNESS);
        assertEquals(Weight.WRONG, soft.weight());
        assertTrue(
                soft.says()
                        .matches(
                                "no face is sharp: the sharpest, \\w+, has a blur of 0\\.1\\d mm on"
                                        + " the sensor; .*"),
                soft.says());
    }

    /** Pixels of a sensor of half the size are half as wide: half of the above is measured. */
    @Test
    void blurIsMeasuredOnTheSensorOfThePlan() {
        ShootPlan plan =
                ((PlanReading.Good)
                                new PlanReader(GenericFixtures.all())
                                        .read(
                                                DemoShoot.text()
                                                        .replace(
                                                                "\ncamera: {",
                                                                "\ncamera: {sensor: [18, 12], ")
                                                        .getBytes(StandardCharsets.UTF_8)))
                        .plan();
        DemoFrames.DemoFrame frame = DemoFrames.of("spread");
        Taken t = frame.taken();
        Taken taken =
                new Taken(
                        1,
                        t.shot(),
                        t.look(),
                        t.exif(),
                        t.preview(),
                        Optional.of(new Original(frame, p -> 12)),
                        List.of());
        Seen seen = Seen.of(DemoFrames.PLAN, taken, Optional.empty());
        Remark soft = SharpnessCheck.check(taken, seen, plan).orElseThrow();
        assertTrue(
                soft.says().matches(".* has a blur of 0\\.0[5-9] mm on the sensor; .*"),
                soft.says());
    }

    /** An original of a few hundred pixels: edges as wide as its pixels are no blur. */
    @ParameterizedTest
    @ValueSource(strings = {"safe", "two-off", "solo-ines", "solo-marlo"})
    void aSmallOriginalThatIsSharpIsNotCalledSoft(String shot) {
        DemoFrames.DemoFrame frame = DemoFrames.of(shot);
        Taken t = frame.taken();
        BufferedImage whole = t.preview();
        DetailSource itself =
                new DetailSource() {
                    @Override
                    public Optional<BufferedImage> region(int x, int y, int w, int h) {
                        return Optional.of(whole.getSubimage(x, y, w, h));
                    }

                    @Override
                    public int width() {
                        return whole.getWidth();
                    }

                    @Override
                    public int height() {
                        return whole.getHeight();
                    }
                };
        FrameReport report =
                DemoFrames.check(
                        new Taken(
                                1,
                                t.shot(),
                                t.look(),
                                t.exif(),
                                whole,
                                Optional.of(itself),
                                List.of()));
        assertEquals(
                List.of(),
                report.remarks().stream()
                        .filter(r -> r.kind() == Kind.SHARPNESS && r.weight() != Weight.GOOD)
                        .toList());
    }
}
