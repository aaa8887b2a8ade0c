package lookstep.server.framecheck;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import javax.imageio.ImageIO;
import lookstep.protocols.image.ExifData;
import lookstep.protocols.image.ExifReader;
import lookstep.server.look.LookLevels;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.Look.Level.Percent;
import lookstep.server.plan.Look.Setting;
import lookstep.server.prediction.Predictions;
import lookstep.simulator.gear.CardWriter;
import lookstep.simulator.gear.LightSnapshot;
import lookstep.simulator.gear.SimulatedCamera;
import lookstep.simulator.gear.View;
import lookstep.simulator.model.colour.Xyz;
import lookstep.simulator.model.space.Vec3;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Rendered frames of the demo shoot, as planned and with deliberate faults. */
class FrameChecksTest {
    private static List<Remark> notGood(FrameReport report) {
        return report.remarks().stream().filter(r -> r.weight() != Weight.GOOD).toList();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "safe",
                "two-off",
                "warm-front",
                "tight-five",
                "spread",
                "colour",
                "rim-only",
                "top-trio",
                "solo-ines"
            })
    void nothingIsWrongWithAFrameAsPlanned(String shot) {
        FrameReport report = DemoFrames.check(DemoFrames.of(shot).taken());
        assertEquals(List.of(), notGood(report));
        assertTrue(report.remarks().size() >= 2, "and that is said: " + report.remarks());
    }

    /** A camera that writes a JPEG with Exif, and what a reader finds in it. */
    @Test
    void aFrameOfTheSimulatedCamera(@TempDir Path card) throws Exception {
        DemoFrames.DemoFrame frame = DemoFrames.of("safe");
        List<String> names = DemoFrames.PLAN.rig().stream().map(Light::name).toList();
        List<Xyz> sent =
                Predictions.intensities(
                        DemoFrames.PLAN, LookLevels.of(DemoFrames.PLAN, frame.look()).levels());
        Map<String, Xyz> lit = new LinkedHashMap<>();
        for (int i = 0; i < names.size(); i++) {
            lit.put(names.get(i), sent.get(i));
        }
        SimulatedCamera camera =
                new SimulatedCamera(
                        () ->
                                new View(
                                        frame.scene(),
                                        names,
                                        Predictions.houseWhite(DemoFrames.PLAN),
                                        frame.camera()),
                        () -> new LightSnapshot(lit, 1),
                        Clock.fixed(Instant.EPOCH, ZoneOffset.UTC),
                        new CardWriter(card),
                        DemoFrames.WIDTH,
                        DemoFrames.HEIGHT,
                        3);
        Path file = camera.photograph().orElseThrow();
        ExifData exif = ExifReader.read(Files.readAllBytes(file)).data();
        FrameReport report = DemoFrames.check(frame.taken(ImageIO.read(file.toFile()), exif));
        assertEquals(List.of(), notGood(report));
        assertEquals(
                "all faces within 0.3 stop of the plan",
                DemoFrames.remark(report, Kind.EXPOSURE).says());
        assertEquals("set as the look wants it", DemoFrames.remark(report, Kind.SETTINGS).says());
    }

    @Test
    void twoStopsUnderByTheIso() {
        FrameReport report =
                DemoFrames.check(DemoFrames.of("safe").set(8, 1 / 100.0, 1600).taken());
        Remark faces = DemoFrames.remark(report, Kind.EXPOSURE);
        assertEquals(Weight.WRONG, faces.weight());
        assertEquals(-2, faces.value(), 0.15);
        assertTrue(
                faces.says()
                        .startsWith("faces 2 stops under the plan: as the camera's settings say"),
                faces.says());
        assertEquals(
                "ISO 1600 instead of ISO 6400 (2 stops less light): set ISO 6400",
                DemoFrames.remark(report, Kind.SETTINGS).says());
        inOrder(report);
    }

    /** The camera is set as planned; the key gives three stops less. */
    @Test
    void theKeyIsLow() {
        DemoFrames.DemoFrame frame = DemoFrames.of("safe");
        Map<String, Setting> lights = new LinkedHashMap<>(frame.look().lights());
        lights.put("key", new Setting(new Percent(12), lights.get("key").colour()));
        Look dim = new Look("dim", frame.look().camera(), 0, "key", lights);
        Taken taken = frame.taken(DemoFrames.of(frame.shot(), dim).picture(), frame.exif().build());
        Remark faces = DemoFrames.remark(DemoFrames.check(taken), Kind.EXPOSURE);
        assertEquals(Weight.WRONG, faces.weight(), faces.says());
        assertTrue(
                faces.says()
                        .endsWith(
                                "the settings do not explain it; is every light on, and is"
                                        + " something before one?"),
                faces.says());
    }

    /** f/2 and an ISO that makes up for it: as light as planned, and not sharp all through. */
    @Test
    void openWithFivePeople() {
        FrameReport report =
                DemoFrames.check(DemoFrames.of("tight-five").set(2, 1 / 100.0, 400).taken());
        Remark depth = DemoFrames.remark(report, Kind.DEPTH);
        assertEquals(Weight.WRONG, depth.weight());
        // H = 50^2 / (2 x 0.02) + 50 = 62 550 mm; 3.2 x 62.5 / (62.55 - 3.2) = 3.3699 m.
        assertEquals(0.170, depth.value(), 0.001);
        assertTrue(
                depth.says().startsWith("f/2 with five people 0.75 m deep: 0.17 m is sharp"),
                depth.says());
        assertEquals(Weight.GOOD, DemoFrames.remark(report, Kind.EXPOSURE).weight());
        inOrder(report);
    }

    /** Two stops over: the light faces clip first. */
    @Test
    void clippedFaces() {
        FrameReport report =
                DemoFrames.check(DemoFrames.of("safe").set(8, 1 / 100.0, 25600).taken());
        Remark clipped = DemoFrames.remark(report, Kind.CLIPPING);
        assertEquals(Weight.WRONG, clipped.weight());
        assertTrue(clipped.says().contains("Petra"), clipped.says());
        assertTrue(clipped.says().contains("Tovah"), clipped.says());
        assertTrue(DemoFrames.remark(report, Kind.EXPOSURE).value() > 1, "over");
        inOrder(report);
    }

    @Test
    void somebodyInTheFold() {
        DemoFrames.DemoFrame frame =
                DemoFrames.of("spread").standing((i, feet) -> i == 2 ? new Vec3(0.13, 0, 0) : feet);
        FrameReport report = DemoFrames.check(frame.taken());
        Remark fold = report.remarks().get(0);
        assertEquals(Kind.FOLD, fold.kind());
        assertEquals(Weight.WRONG, fold.weight());
        assertEquals(
                "Quill stands in the fold: a step to the side, or aim a little aside", fold.says());
        assertEquals(1, fold.value());
    }

    /** The camera on its side, which the plan does not know of: its picture is level. */
    @Test
    void anUprightFrame() {
        DemoFrames.DemoFrame frame = DemoFrames.of("solo-ines");
        BufferedImage upright =
                frame.compose(DemoFrames.plates(frame.scene(), frame.camera(), 320, 480));
        FrameReport report =
                DemoFrames.check(frame.taken(DiscBlur.noisy(upright, 2, 4), frame.exif().build()));
        assertEquals(List.of(), notGood(report));
        Remark faces = DemoFrames.remark(report, Kind.EXPOSURE);
        assertTrue(faces.says().startsWith("all faces within"), faces.says());
        assertTrue(report.fingerprint().toString().startsWith("upright "));
    }

    /** The middle one of five stands in the middle, and no page is folded there. */
    @Test
    void noFoldWithoutASpread() {
        assertTrue(
                DemoFrames.check(DemoFrames.of("safe").taken()).remarks().stream()
                        .noneMatch(r -> r.kind() == Kind.FOLD));
    }

    @Test
    void theSameAgain() {
        DemoFrames.DemoFrame frame = DemoFrames.of("warm-front");
        Taken first = frame.taken();
        Fingerprint kept = Fingerprint.parse(DemoFrames.check(first).fingerprint().toString());
        Taken second =
                new Taken(
                        8,
                        frame.shot(),
                        frame.look(),
                        first.exif(),
                        DiscBlur.noisy(frame.aimed(0.03, 0).picture(), 2, 99),
                        Optional.empty(),
                        List.of(new KeptPicture(7, frame.shot().name(), kept)));
        Remark twice = DemoFrames.remark(DemoFrames.check(second), Kind.TWICE);
        assertEquals(Weight.LOOK, twice.weight());
        assertTrue(
                twice.says().startsWith("much like frame 7, Warm front, cold back (difference 0."),
                twice.says());
    }

    private static void inOrder(FrameReport report) {
        Set<Kind> kinds = new HashSet<>();
        Weight before = Weight.WRONG;
        for (Remark r : report.remarks()) {
            assertTrue(kinds.add(r.kind()), "one of each kind: " + r.kind());
            assertTrue(r.weight().compareTo(before) <= 0, "the gravest first");
            before = r.weight();
        }
    }
}
