package lookstep.server.framecheck;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.json.JsonMapper;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.util.Base64;
import java.util.List;
import java.util.Optional;
import lookstep.simulator.model.space.Vec3;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class FingerprintTest {
    private static BufferedImage plain(int w, int h, Color colour) {
        BufferedImage image = new BufferedImage(w, h, BufferedImage.TYPE_INT_RGB);
        Graphics2D pen = image.createGraphics();
        pen.setColor(colour);
        pen.fillRect(0, 0, w, h);
        pen.dispose();
        return image;
    }

    private static double difference(BufferedImage a, BufferedImage b) {
        return Fingerprint.of(a).difference(Fingerprint.of(b)).orElseThrow();
    }

    /**
     * Greys of code 119 and 128 have L* 50.03 and 53.59 (CIE 15 with the sRGB curve of IEC
     * 61966-2-1, worked by hand); then CIEDE2000 is dL / S_L with S_L = 1 + 0.015 (51.81 - 50)^2 /
     * sqrt(20 + 3.28) = 1.0102, so 3.52.
     */
    @Test
    void plainGreys() {
        BufferedImage a = plain(300, 200, new Color(119, 119, 119));
        BufferedImage b = plain(300, 200, new Color(128, 128, 128));
        assertEquals(3.52, difference(a, b), 0.02);
        assertEquals(0, difference(a, a), 0);
    }

    @Test
    void uprightAndLevelAreNotCompared() {
        Fingerprint level = Fingerprint.of(plain(300, 200, Color.GRAY));
        Fingerprint upright = Fingerprint.of(plain(200, 300, Color.GRAY));
        assertTrue(level.difference(upright).isEmpty());
    }

    @Test
    void toTextAndBack() throws Exception {
        Fingerprint of = Fingerprint.of(DemoFrames.of("safe").picture());
        Fingerprint back = Fingerprint.parse(of.toString());
        assertEquals(of, back);
        assertEquals(0, of.difference(back).orElseThrow());
        JsonMapper json = JsonMapper.builder().build();
        KeptPicture kept = new KeptPicture(3, "All five, safe", of);
        String text = json.writeValueAsString(kept);
        assertTrue(text.length() < 1700, text.length() + " characters");
        assertEquals(kept, json.readValue(text, KeptPicture.class));
    }

    /** One byte a channel, rows from the top: the first field of a red picture is 255, 0, 0. */
    @Test
    void isBytesInBase64() {
        String text = Fingerprint.of(plain(48, 32, Color.RED)).toString();
        byte[] bytes = Base64.getDecoder().decode(text.substring("level ".length()));
        assertEquals(24 * 16 * 3, bytes.length);
        assertEquals(List.of(-1, 0, 0), List.of((int) bytes[0], (int) bytes[1], (int) bytes[2]));
    }

    @Test
    void otherTextIsRefused() {
        assertThrows(IllegalArgumentException.class, () -> Fingerprint.parse("level AAAA"));
        assertThrows(IllegalArgumentException.class, () -> Fingerprint.parse("sideways"));
    }

    /** A few centimetres aside, with noise, a breath later. */
    @ParameterizedTest
    @ValueSource(strings = {"safe", "tight-five", "solo-petra"})
    void theSameAgain(String shot) {
        DemoFrames.DemoFrame frame = DemoFrames.of(shot);
        BufferedImage again =
                frame.aimed(0.02, 0.01)
                        .standing((i, feet) -> feet.plus(new Vec3(i % 2 == 0 ? 0.02 : -0.02, 0, 0)))
                        .picture();
        double difference = difference(frame.picture(), DiscBlur.noisy(again, 2, 5));
        assertTrue(difference > 0.1 && difference < TwiceCheck.ALIKE, shot + ": " + difference);
    }

    @Test
    void theSafeShotOnOtherLooks() {
        BufferedImage safe = DemoFrames.of("safe").picture();
        for (var look : DemoFrames.PLAN.looks()) {
            double difference =
                    difference(safe, DemoFrames.of(DemoFrames.shot("safe"), look).picture());
            assertEquals(
                    look.name().equals("safe"),
                    difference < TwiceCheck.ALIKE,
                    look.name() + ": " + difference);
        }
    }

    @Test
    void namesTheNearestOfThoseKept() {
        DemoFrames.DemoFrame frame = DemoFrames.of("safe");
        Taken t = frame.taken();
        List<KeptPicture> kept =
                List.of(
                        kept(12, frame.picture()),
                        kept(13, frame.aimed(0.06, 0).picture()),
                        kept(14, DemoFrames.of("colour").picture()));
        Taken taken =
                new Taken(20, t.shot(), t.look(), t.exif(), t.preview(), Optional.empty(), kept);
        Remark remark = DemoFrames.remark(DemoFrames.check(taken), Kind.TWICE);
        assertTrue(
                remark.says().startsWith("much like frame 12, safe (difference 0.1)"),
                remark.says());
        assertEquals(Weight.LOOK, remark.weight());
        Taken itself =
                new Taken(
                        12,
                        t.shot(),
                        t.look(),
                        t.exif(),
                        t.preview(),
                        Optional.empty(),
                        List.of(kept.get(0), kept.get(2)));
        assertTrue(
                DemoFrames.check(itself).remarks().stream().noneMatch(r -> r.kind() == Kind.TWICE));
    }

    private static KeptPicture kept(int number, BufferedImage picture) {
        return new KeptPicture(number, "safe", Fingerprint.of(picture));
    }
}
