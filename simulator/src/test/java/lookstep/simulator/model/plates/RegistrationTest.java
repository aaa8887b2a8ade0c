package lookstep.simulator.model.plates;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.AffineTransform;
import java.awt.image.BufferedImage;
import java.util.Random;
import lookstep.simulator.gear.BandOnSet;
import lookstep.simulator.gear.ToneCurve;
import org.junit.jupiter.api.Test;

/** Whether the camera moved, under lights that have little to do with each other. */
class RegistrationTest {
    /** A camera has moved from here on, share of the width. */
    private static final double MOVED = 0.003;

    private static BufferedImage lit(double house, double[] levels, long seed) {
        return BandOnSet.usual()
                .frame(house, levels, BandOnSet.camera(), ToneCurve.CONTRASTY, seed);
    }

    private static double[] random(long seed) {
        Random dice = new Random(seed);
        double[] levels = BandOnSet.off();
        for (int e = 0; e < levels.length; e++) {
            levels[e] = dice.nextDouble() < 0.5 ? 0 : dice.nextDouble();
        }
        levels[Math.floorMod(seed, 5)] = 0.8;
        return levels;
    }

    /** Shifted by shares of the width, turned by degrees and enlarged, about the middle. */
    private static BufferedImage moved(
            BufferedImage from, double x, double y, double degrees, double zoom) {
        BufferedImage to =
                new BufferedImage(from.getWidth(), from.getHeight(), BufferedImage.TYPE_INT_RGB);
        AffineTransform t = new AffineTransform();
        t.translate(from.getWidth() * (x + 0.5), from.getWidth() * y + from.getHeight() / 2.0);
        t.rotate(Math.toRadians(degrees));
        t.scale(zoom, zoom);
        t.translate(-from.getWidth() / 2.0, -from.getHeight() / 2.0);
        Graphics2D pen = to.createGraphics();
        pen.setRenderingHint(
                RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BICUBIC);
        pen.drawImage(from, t, null);
        pen.dispose();
        return to;
    }

    private static double far(Registration.Shift s) {
        return Math.hypot(s.x(), s.y() * 2 / 3);
    }

    @Test
    void aStandingCameraIsNotCalledMovedWhateverTheLights() {
        CodedPicture house = CodedPicture.of(lit(1, BandOnSet.off(), 1));
        double worst = 0;
        for (int seed = 0; seed < 30; seed++) {
            Registration.Shift shift =
                    Registration.between(house, CodedPicture.of(lit(1, random(seed), seed)));
            worst = Math.max(worst, far(shift));
            assertTrue(
                    far(shift) < MOVED || shift.certainty() < 0.3, "seed " + seed + ": " + shift);
            assertTrue(shift.certainty() > 0.5, "seed " + seed + ": " + shift);
        }
        assertTrue(worst < 0.002, "the farthest of 30 is off by " + worst + " of the width");
    }

    @Test
    void aMovedCameraIsToldFromFourThousandthsOfTheWidthOn() {
        CodedPicture house = CodedPicture.of(lit(1, BandOnSet.off(), 1));
        double[] sizes = {0.004, 0.006, 0.01, 0.02, 0.05, 0.1};
        for (double size : sizes) {
            for (int way = 0; way < 4; way++) {
                double x = size * Math.cos(way * 1.3 + 0.4);
                double y = size * Math.sin(way * 1.3 + 0.4);
                BufferedImage other = moved(lit(1, random(way), way), x, y, 0, 1);
                Registration.Shift shift = Registration.between(house, CodedPicture.of(other));
                String what = "%.4f %.4f: %s".formatted(x, y, shift);
                // A tenth of the width takes a seventh of the height out of the picture.
                assertTrue(shift.certainty() > (size < 0.1 ? 0.3 : 0.15), what);
                assertTrue(far(shift) > MOVED, what);
                assertEquals(x, shift.x(), 0.0016, what);
                assertEquals(y, shift.y() * 2 / 3, 0.0016, what);
            }
        }
    }

    @Test
    void nothingIsSaidOfABlackPlate() {
        CodedPicture key = CodedPicture.of(lit(1, BandOnSet.levels(0, 1), 3));
        CodedPicture black = CodedPicture.of(lit(0.001, BandOnSet.off(), 2));
        assertTrue(Registration.between(black, key).certainty() < 0.2);
        CodedPicture grainy =
                CodedPicture.of(
                        BandOnSet.jpeg(new BufferedImage(600, 400, BufferedImage.TYPE_INT_RGB)));
        assertEquals(0, Registration.between(grainy, key).certainty());
    }

    @Test
    void otherPicturesAreNotLaidOverEachOther() {
        Random dice = new Random(4);
        BufferedImage noise = new BufferedImage(600, 400, BufferedImage.TYPE_INT_RGB);
        for (int y = 0; y < 400; y++) {
            for (int x = 0; x < 600; x++) {
                noise.setRGB(x, y, dice.nextInt(1 << 24));
            }
        }
        CodedPicture key = CodedPicture.of(lit(1, BandOnSet.levels(0, 1), 3));
        assertTrue(Registration.between(CodedPicture.of(noise), key).certainty() < 0.2);
    }

    @Test
    void aTurnAndAZoomAreNoticedAndLowerTheCertainty() {
        CodedPicture house = CodedPicture.of(lit(1, BandOnSet.off(), 1));
        BufferedImage all = lit(1, BandOnSet.levels(0, 0.5, 1, 0.5, 2, 0.5, 4, 0.5), 2);
        Registration.Motion still = Registration.motion(house, CodedPicture.of(all));
        assertEquals(0, still.turnDegrees(), 0.06);
        assertEquals(1, still.zoom(), 0.0015);
        Registration.Motion turned =
                Registration.motion(house, CodedPicture.of(moved(all, 0, 0, 0.6, 1)));
        assertEquals(0.6, turned.turnDegrees(), 0.15);
        assertTrue(turned.shift().certainty() < 0.75 * still.shift().certainty(), "" + turned);
        Registration.Motion zoomed =
                Registration.motion(house, CodedPicture.of(moved(all, 0, 0, 0, 1.015)));
        assertEquals(1.015, zoomed.zoom(), 0.01);
        assertTrue(zoomed.zoom() > 1.004, "" + zoomed);
        assertTrue(zoomed.shift().certainty() < 0.75 * still.shift().certainty(), "" + zoomed);
    }

    @Test
    void sizesMustBeAlike() {
        CodedPicture small = CodedPicture.of(new BufferedImage(60, 40, BufferedImage.TYPE_INT_RGB));
        CodedPicture large =
                CodedPicture.of(new BufferedImage(600, 400, BufferedImage.TYPE_INT_RGB));
        assertThrows(IllegalArgumentException.class, () -> Registration.between(small, large));
    }
}
