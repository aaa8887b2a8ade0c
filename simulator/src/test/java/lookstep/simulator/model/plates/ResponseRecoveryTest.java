package lookstep.simulator.model.plates;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import lookstep.simulator.gear.BandOnSet;
import lookstep.simulator.gear.ToneCurve;
import lookstep.simulator.model.colour.Srgb;
import lookstep.simulator.model.optics.Camera;
import org.junit.jupiter.api.Test;

/**
 * A camera's curve from frames of known light. That a curve can be found from frames whose exposure
 * is known is Debevec and Malik's (SIGGRAPH 1997); that light adds in linear light is Debevec and
 * others' (SIGGRAPH 2000). Here the curves are known beforehand.
 */
class ResponseRecoveryTest {
    private static final double[] SHARES = {0, 0.0625, 0.125, 0.25, 0.5, 1};
    private static final int SIDE = 200;

    /** Squares of 10 pixels, each with its own house light and ramp light, both known. */
    private static BufferedImage squares(
            double share, double exposure, DoubleUnaryOperator signal) {
        BufferedImage image = new BufferedImage(SIDE, SIDE, BufferedImage.TYPE_INT_RGB);
        for (int y = 0; y < SIDE; y++) {
            for (int x = 0; x < SIDE; x++) {
                int row = Math.floorDiv(y, 10);
                int column = Math.floorDiv(x, 10);
                double house = 0.002 + 0.05 * row / 20;
                double light = Math.pow(0.93, 2.0 * column) * (0.3 + 0.7 * row / 20);
                double v = Math.min(1, (house + share * light) * exposure);
                int z = (int) Math.round(255 * signal.applyAsDouble(v));
                image.setRGB(x, y, z << 16 | z << 8 | z);
            }
        }
        return image;
    }

    private static List<ResponseRecovery.Step> ramp(DoubleUnaryOperator signal) {
        List<ResponseRecovery.Step> ramp = new ArrayList<>();
        for (double share : SHARES) {
            ramp.add(
                    new ResponseRecovery.Step(
                            CodedPicture.of(squares(share, 1, signal)), share, 0.02));
        }
        return ramp;
    }

    /** Largest error of the recovered light, in codes of the true curve, over some codes. */
    private static double worst(
            Response found, int channel, DoubleUnaryOperator light, int from, int to) {
        double worst = 0;
        for (int z = from; z <= to; z++) {
            double slope =
                    light.applyAsDouble((z + 0.5) / 255) - light.applyAsDouble((z - 0.5) / 255);
            double off = (found.linear(channel, z) - light.applyAsDouble(z / 255.0)) / slope;
            worst = Math.max(worst, Math.abs(off));
        }
        return worst;
    }

    /** The inverse of one channel of a style, by halving. */
    private static DoubleUnaryOperator light(ToneCurve style, int channel) {
        return signal -> {
            double low = 0;
            double high = 1;
            for (int i = 0; i < 60; i++) {
                double middle = (low + high) / 2;
                if (style.signal(channel, middle) < signal) {
                    low = middle;
                } else {
                    high = middle;
                }
            }
            return (low + high) / 2;
        };
    }

    @Test
    void aKnownPowerLawComesBack() {
        for (double gamma : new double[] {1.8, 2.2, 2.6}) {
            Response found = ResponseRecovery.of(ramp(v -> Math.pow(v, 1 / gamma)));
            double worst = worst(found, 1, s -> Math.pow(s, gamma), 48, 254);
            assertTrue(worst < 2, "gamma " + gamma + ": off by " + worst + " codes");
            // Under the darkest code of the ramp nothing is known but that it ends at 0.
            for (int z = 0; z < 256; z++) {
                assertEquals(Math.pow(z / 255.0, gamma), found.linear(1, z), 0.006, "code " + z);
            }
            assertEquals(List.of(), found.doubts());
        }
    }

    @Test
    void aCameraThatWritesSrgbIsFoundToBeOne() {
        Response found = ResponseRecovery.of(ramp(Srgb::encode));
        for (int z = 4; z < 256; z++) {
            assertEquals(Response.SRGB.linear(0, z), found.linear(0, z), 0.012, "code " + z);
        }
    }

    @Test
    void srgbHasItsPublishedValues() {
        // IEC 61966-2-1: 0.04045 is the end of the straight piece; code 188 is about half the
        // light and 118 about 18 per cent (worked from the standard's formula with python3).
        assertEquals(0.502886, Response.SRGB.linear(1, 188), 1e-6);
        assertEquals(0.181164, Response.SRGB.linear(1, 118), 1e-6);
        assertEquals(10 / 255.0 / 12.92, Response.SRGB.linear(1, 10), 1e-8);
        for (int z = 0; z < 256; z++) {
            assertEquals(z, Response.SRGB.code(2, Response.SRGB.linear(2, z)));
        }
        assertEquals(0, Response.SRGB.code(0, -3));
        assertEquals(255, Response.SRGB.code(0, 3));
    }

    @Test
    void aPictureStyleIsFoundThroughGrainAndJpegInEachChannel() {
        Response found =
                ResponseRecovery.of(TakenPlates.ramp(BandOnSet.usual(), ToneCurve.CONTRASTY));
        for (int c = 0; c < 3; c++) {
            double worst = worst(found, c, light(ToneCurve.CONTRASTY, c), 8, 254);
            double taken = worst(Response.SRGB, c, light(ToneCurve.CONTRASTY, c), 8, 254);
            assertTrue(worst < 4, "channel " + c + " is off by " + worst + " codes");
            assertTrue(taken > 10, "plain sRGB would be off by " + taken + " codes");
        }
        assertEquals(List.of(), found.doubts());
    }

    @Test
    void aCurveRisesEverywhere() {
        Response found =
                ResponseRecovery.of(TakenPlates.ramp(BandOnSet.usual(), ToneCurve.CONTRASTY));
        for (int c = 0; c < 3; c++) {
            assertEquals(0, found.linear(c, 0));
            assertEquals(1, found.linear(c, 255));
            for (int z = 1; z < 256; z++) {
                assertTrue(found.linear(c, z) > found.linear(c, z - 1), c + " at " + z);
            }
        }
    }

    @Test
    void exposuresFromTheExifCountAsLight() {
        // Twice the exposure for the weak steps: without the scales the ramp is nonsense.
        List<ResponseRecovery.Step> ramp = new ArrayList<>();
        double[][] frames = {{0, 1}, {0.125, 2}, {0.25, 2}, {0.5, 1}, {1, 0.5}, {1, 1}};
        List<ResponseRecovery.Step> blind = new ArrayList<>();
        for (double[] f : frames) {
            CodedPicture picture = CodedPicture.of(squares(f[0], f[1], v -> Math.pow(v, 1 / 2.2)));
            ramp.add(new ResponseRecovery.Step(picture, f[0], 0.02 * f[1]));
            blind.add(new ResponseRecovery.Step(picture, f[0], 0.02));
        }
        double worst = worst(ResponseRecovery.of(ramp), 1, s -> Math.pow(s, 2.2), 48, 200);
        assertTrue(worst < 3, "off by " + worst + " codes");
        List<String> doubts = ResponseRecovery.of(blind).doubts();
        assertTrue(
                doubts.stream().anyMatch(d -> d.contains("exposure automatic")),
                "an exposure that nobody wrote down: " + doubts);
    }

    @Test
    void aLightThatWasStillFadingIsDoubted() {
        List<ResponseRecovery.Step> ramp = ramp(v -> Math.pow(v, 1 / 2.2));
        List<ResponseRecovery.Step> faded = new ArrayList<>(ramp);
        CodedPicture early = CodedPicture.of(squares(0.33, 1, v -> Math.pow(v, 1 / 2.2)));
        faded.set(3, new ResponseRecovery.Step(early, 0.25, 0.02));
        assertEquals(List.of(), ResponseRecovery.of(ramp).doubts());
        List<String> doubts = ResponseRecovery.of(faded).doubts();
        assertTrue(doubts.stream().anyMatch(d -> d.contains("does not fit")), "" + doubts);
    }

    @Test
    void whatTheRampNeverShowedIsSaid() {
        Response found = ResponseRecovery.of(ramp(v -> Math.pow(0.25 * v, 1 / 2.2)));
        assertTrue(
                found.doubts().stream().anyMatch(d -> d.contains("what is brighter")),
                "" + found.doubts());
        assertTrue(found.seen(1, 100));
        assertTrue(!found.seen(1, 200));
    }

    @Test
    void withoutARampItIsPlainSrgbAndSaysSo() {
        List<ResponseRecovery.Step> two = ramp(v -> v).subList(0, 2);
        Response found = ResponseRecovery.of(two);
        assertEquals(Response.SRGB.linear(1, 99), found.linear(1, 99));
        assertTrue(found.doubts().get(0).startsWith("no ramp"), "" + found.doubts());
        assertEquals(1, ResponseRecovery.of(List.of()).doubts().size());
    }

    @Test
    void framesOfTwoSizesAreRefused() {
        List<ResponseRecovery.Step> ramp = new ArrayList<>(ramp(v -> v));
        BufferedImage small = new BufferedImage(20, 20, BufferedImage.TYPE_INT_RGB);
        ramp.set(2, new ResponseRecovery.Step(CodedPicture.of(small), 0.5, 0.02));
        Exception e = assertThrows(IllegalArgumentException.class, () -> ResponseRecovery.of(ramp));
        assertTrue(e.getMessage().contains("20 x 20"), e.getMessage());
    }

    @Test
    void theFinestStepIsWhereTheCurveIsFlattest() {
        Camera camera = BandOnSet.camera();
        assertEquals(BandOnSet.KELVIN, camera.whiteBalanceKelvin());
        assertTrue(Response.SRGB.step(1, 200) > 4 * Response.SRGB.step(1, 40));
        assertEquals(1 / 255.0 / 12.92, Response.SRGB.step(1, 3), 1e-7);
    }
}
