package lookstep.server.framecheck;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Patches of known codes where the plan has the faces, on black. The codes are those of the sRGB
 * curve (IEC 61966-2-1) for linear 0.2, 0.12, 0.09 and for twice, half, a quarter and an eighth of
 * that, worked out apart.
 */
class LightChecksTest {
    private static final Color PLANNED = new Color(124, 97, 85);
    private static final DemoFrames.DemoFrame SAFE = DemoFrames.of("safe");

    private static BufferedImage patches(Color background, Color... faces) {
        BufferedImage image = new BufferedImage(1440, 960, BufferedImage.TYPE_INT_RGB);
        Graphics2D pen = image.createGraphics();
        pen.setColor(background);
        pen.fillRect(0, 0, 1440, 960);
        List<FacePlace> places = FacePlace.of(DemoFrames.PLAN, SAFE.shot(), SAFE.look(), 1440, 960);
        for (int i = 0; i < places.size(); i++) {
            Box face = places.get(i).metre().times(0.16, 0.22);
            pen.setColor(faces[i % faces.length]);
            pen.fillRect(
                    (int) (face.x() * 1440),
                    (int) (face.y() * 960),
                    (int) (face.width() * 1440),
                    (int) (face.height() * 960));
        }
        pen.dispose();
        return image;
    }

    private static FrameReport check(BufferedImage frame, BufferedImage predicted) {
        return new FrameChecks(DemoFrames.PLAN, (shot, look) -> Optional.of(predicted))
                .check(SAFE.taken(frame, SAFE.exif().build()));
    }

    @ParameterizedTest
    @CsvSource({
        "170, 134, 118, 1, WRONG",
        "124, 97, 85, 0, GOOD",
        "89, 69, 60, -1, WRONG",
        "63, 48, 41, -2, WRONG"
    })
    void stops(int red, int green, int blue, double stops, Weight weight) {
        FrameReport report =
                check(
                        patches(Color.BLACK, new Color(red, green, blue)),
                        patches(Color.BLACK, PLANNED));
        Remark remark = DemoFrames.remark(report, Kind.EXPOSURE);
        assertEquals(stops, remark.value(), 0.03, remark.says());
        assertEquals(weight, remark.weight(), remark.says());
    }

    @Test
    void oneAlone() {
        Color half = new Color(89, 69, 60);
        FrameReport report =
                check(
                        patches(Color.BLACK, PLANNED, PLANNED, PLANNED, half, PLANNED),
                        patches(Color.BLACK, PLANNED));
        Remark remark = DemoFrames.remark(report, Kind.EXPOSURE);
        assertEquals(Weight.LOOK, remark.weight());
        assertEquals(
                "Quill 1 stop under the plan, the others as planned: see who stands in whose light",
                remark.says());
    }

    /**
     * Linear 0.137 x 1/8 on a grey of linear 0.0171 is three stops; 0.0086 is four (codes 35, 23).
     */
    @Test
    void theBackground() {
        Color threeUnder = new Color(35, 35, 35);
        Color fiveUnder = new Color(14, 14, 14);
        FrameReport report = check(patches(threeUnder, PLANNED), patches(fiveUnder, PLANNED));
        Remark remark = DemoFrames.remark(report, Kind.BACKGROUND);
        assertEquals(-2, remark.value(), 0.15, remark.says());
        assertTrue(
                remark.says().startsWith("the background is 3 stops under the faces"),
                remark.says());
        assertTrue(
                check(patches(threeUnder, PLANNED), patches(threeUnder, PLANNED)).remarks().stream()
                        .noneMatch(r -> r.kind() == Kind.BACKGROUND));
    }

    @Test
    void clippedFaces() {
        Color clipped = new Color(255, 250, 240);
        FrameReport report =
                check(
                        patches(Color.BLACK, PLANNED, clipped, PLANNED, PLANNED, PLANNED),
                        patches(Color.BLACK, PLANNED));
        Remark remark = DemoFrames.remark(report, Kind.CLIPPING);
        assertEquals(Weight.WRONG, remark.weight());
        assertEquals(1, remark.value(), 1e-6);
        assertEquals(
                "clipped in the face: Marlo 100 %; less light on them, or a shorter time",
                remark.says());
        // What the plan clips as well is meant.
        assertTrue(
                check(patches(Color.BLACK, clipped), patches(Color.BLACK, clipped))
                        .remarks()
                        .stream()
                        .noneMatch(r -> r.kind() == Kind.CLIPPING));
    }

    /** A third of the picture white, and no face near it. */
    @Test
    void aClippedPicture() {
        BufferedImage frame = patches(Color.BLACK, PLANNED);
        Graphics2D pen = frame.createGraphics();
        pen.setColor(Color.WHITE);
        pen.fillRect(0, 640, 1440, 320);
        pen.dispose();
        Remark remark =
                DemoFrames.remark(check(frame, patches(Color.BLACK, PLANNED)), Kind.CLIPPING);
        assertEquals(Weight.LOOK, remark.weight());
        assertEquals(1 / 3.0, remark.value(), 0.002);
    }

    /** Linear 0.1 (code 89) where the plan has 0.2 (code 124). */
    @Test
    void withoutAFaceTheMiddleIsCompared() {
        Color half = new Color(89, 89, 89);
        Remark remark =
                DemoFrames.remark(
                        check(patches(half, half), patches(new Color(124, 124, 124), PLANNED)),
                        Kind.EXPOSURE);
        assertEquals(Weight.WRONG, remark.weight());
        assertEquals(-1, remark.value(), 0.05);
        assertTrue(
                remark.says()
                        .startsWith(
                                "no face was found where the plan has them; the middle of the"
                                        + " picture is 1 stop under the plan"),
                remark.says());
    }

    /** The plan's skin: medium is (0.36, 0.20, 0.14), a luminance of 0.23. */
    @Test
    void withoutAPredictionTheSkinIsMeteredAgainstThePlan() {
        Taken taken = SAFE.taken(patches(Color.BLACK, PLANNED), SAFE.exif().build());
        FrameReport report =
                new FrameChecks(DemoFrames.PLAN, (shot, look) -> Optional.empty()).check(taken);
        Remark remark = DemoFrames.remark(report, Kind.EXPOSURE);
        // Luminance of the patches: 0.2126 x 0.2 + 0.7152 x 0.12 + 0.0722 x 0.09 = 0.1348. Of the
        // five skins 0.0592, 0.1226, 0.2297, 0.3646, 0.3646 the middle one is Ines'.
        assertEquals(Math.log(0.1348 / 0.2297) / Math.log(2), remark.value(), 0.03, remark.says());
        assertTrue(remark.says().contains("a metered exposure"), remark.says());
    }
}
