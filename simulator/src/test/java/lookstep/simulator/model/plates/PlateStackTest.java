package lookstep.simulator.model.plates;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.util.List;
import lookstep.simulator.gear.BandOnSet;
import lookstep.simulator.gear.ToneCurve;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.optics.Exposure;
import org.junit.jupiter.api.Test;

/**
 * Looks from plates. That any light is a weighted sum of basis lights, in linear light, is Debevec
 * and others' (Acquiring the Reflectance Field of a Human Face, SIGGRAPH 2000).
 */
class PlateStackTest {
    private static CodedPicture plain(int red, int green, int blue) {
        BufferedImage image = new BufferedImage(40, 30, BufferedImage.TYPE_INT_RGB);
        for (int y = 0; y < 30; y++) {
            for (int x = 0; x < 40; x++) {
                image.setRGB(x, y, red << 16 | green << 8 | blue);
            }
        }
        return CodedPicture.of(image);
    }

    private static PlateStack.Taken taken(CodedPicture picture, double... levels) {
        return new PlateStack.Taken(picture, levels, 0.02);
    }

    /** Each emitter rendered alone, without a camera between. */
    private static LinearPlates rendered(BandOnSet set) {
        float[][] planes = new float[BandOnSet.EMITTERS + 1][];
        planes[0] = set.linear(1, BandOnSet.off(), BandOnSet.camera()).toLinear();
        for (int e = 0; e < BandOnSet.EMITTERS; e++) {
            planes[e + 1] = set.linear(0, BandOnSet.levels(e, 1), BandOnSet.camera()).toLinear();
        }
        return new LinearPlates(
                set.width(), set.height(), BandOnSet.KELVIN, BandOnSet.scale(), planes);
    }

    @Test
    void renderedLightAddsUpExactly() {
        // Superposition: the sum of plates is the picture, but for the rounding of floats.
        BandOnSet set = BandOnSet.usual();
        double[] look = BandOnSet.levels(0, 0.6, 1, 0.2, 3, 0.7, 4, 0.4, 5, 0.8, 7, 0.5, 8, 0.3);
        Camera other = BandOnSet.camera().withExposure(4, 1 / 60.0, 1600);
        assertArrayEquals(
                set.linear(0.5, look, other).toLinear(),
                rendered(set).mix(0.5, look, Exposure.scale(other), BandOnSet.KELVIN),
                2e-5f);
    }

    @Test
    void looksFromTakenPlatesLookLikeTheRealOnes() {
        BandOnSet set = BandOnSet.usual();
        ToneCurve style = ToneCurve.CONTRASTY;
        PlateStack stack =
                TakenPlates.stack(set, ResponseRecovery.of(TakenPlates.ramp(set, style)), style);
        LinearPlates exact = rendered(set);
        Camera as = BandOnSet.camera();
        Camera warm = as.withWhiteBalance(3200);
        Camera dark = as.withExposure(as.fNumber(), as.seconds() / 2, as.iso());
        // All lights; two lights off; another colour temperature; the coloured light; green.
        double[][] looks = {
            BandOnSet.levels(0, 0.6, 1, 1, 2, 0.5, 4, 0.5, 8, 0.5),
            BandOnSet.levels(4, 1, 8, 1),
            BandOnSet.levels(0, 0.9, 3, 0.3),
            BandOnSet.levels(0, 0.3, 2, 0.2, 4, 0.4, 7, 0.9, 5, 0.3),
            BandOnSet.levels(1, 0.7, 3, 0.7, 4, 0.2, 6, 0.3)
        };
        for (int n = 0; n < looks.length; n++) {
            for (Camera camera : List.of(as, warm, dark)) {
                double scale = Exposure.scale(camera);
                double kelvin = camera.whiteBalanceKelvin();
                BufferedImage real = set.clean(1, looks[n], camera, style);
                Differences off = Differences.of(stack.picture(1, looks[n], scale, kelvin), real);
                // The renderer balances light before it meets a surface, a camera afterwards: at
                // another balance even exact plates differ from it.
                Differences least =
                        Differences.of(
                                set.image(exact.mix(1, looks[n], scale, kelvin), style), real);
                String what =
                        "look %d, %.0f K, scale %.4f: CIEDE2000 %.2f, 95 %% %.2f; exact plates %.2f, %.2f"
                                .formatted(
                                        n,
                                        kelvin,
                                        scale,
                                        off.median(),
                                        off.p95(),
                                        least.median(),
                                        least.p95());
                assertTrue(off.median() < 1.5 + least.median(), what);
                assertTrue(off.p95() < 5, what);
            }
        }
    }

    @Test
    void withoutTheCurveTheyWouldBeWorse() {
        BandOnSet set = BandOnSet.usual();
        ToneCurve style = ToneCurve.CONTRASTY;
        double[] look = BandOnSet.levels(0, 0.25, 1, 0.25, 2, 0.25, 4, 0.2);
        BufferedImage real = set.clean(1, look, BandOnSet.camera(), style);
        Response found = ResponseRecovery.of(TakenPlates.ramp(set, style));
        Differences with =
                Differences.of(
                        TakenPlates.stack(set, found, style)
                                .picture(1, look, BandOnSet.scale(), BandOnSet.KELVIN),
                        real);
        Differences without =
                Differences.of(
                        TakenPlates.stack(set, Response.SRGB, style)
                                .picture(1, look, BandOnSet.scale(), BandOnSet.KELVIN),
                        real);
        assertTrue(with.p95() < 0.8 * without.p95(), with + " against " + without);
    }

    @Test
    void aFrameComesBackAsItWas() {
        PlateStack stack =
                PlateStack.of(
                        Response.SRGB,
                        4000,
                        List.of(
                                taken(plain(20, 30, 40), 0, 0),
                                taken(plain(90, 80, 70), 1, 0),
                                taken(plain(60, 160, 200), 0, 1)));
        assertEquals(
                0xff000000 | 60 << 16 | 160 << 8 | 200,
                stack.picture(1, new double[] {0, 1}, 0.02, 4000).getRGB(7, 5));
        // House and both: light of codes, added by hand.
        double red =
                Response.SRGB.linear(0, 90)
                        + Response.SRGB.linear(0, 60)
                        - Response.SRGB.linear(0, 20);
        assertEquals(
                Response.SRGB.code(0, red),
                stack.picture(1, new double[] {1, 1}, 0.02, 4000).getRGB(7, 5) >> 16 & 255);
        // Twice the exposure of a house at half is the house.
        assertEquals(
                0xff000000 | 20 << 16 | 30 << 8 | 40,
                stack.picture(0.5, new double[] {0, 0}, 0.04, 4000).getRGB(39, 29));
    }

    @Test
    void weightsAreTheLeastSquaresOnes() {
        // Golden values from numpy 2.4: pinv(M.T) @ v, and with a frame of twice the exposure.
        List<double[]> levels =
                List.of(
                        new double[] {0, 0},
                        new double[] {1, 0},
                        new double[] {0.5, 0.5},
                        new double[] {0, 1});
        assertArrayEquals(
                new double[] {-0.6, 0.11666667, 0.36666667, 0.61666667},
                new LevelSystem(levels, new double[] {1, 1, 1, 1}, false)
                        .weights(0.5, new double[] {0.3, 0.8}),
                1e-8);
        assertArrayEquals(
                new double[] {-0.6, 0.13333333, 0.33333333, 0.63333333},
                new LevelSystem(levels, new double[] {1, 2, 1, 1}, false)
                        .weights(0.5, new double[] {0.3, 0.8}),
                1e-8);
    }

    @Test
    void emittersThatNoFrameTellsApartAreNamed() {
        List<PlateStack.Taken> frames =
                List.of(
                        taken(plain(20, 30, 40), 0, 0, 0),
                        taken(plain(90, 80, 70), 1, 0, 0),
                        taken(plain(60, 160, 200), 0, 0.5, 0.5));
        Exception e =
                assertThrows(
                        IllegalArgumentException.class,
                        () -> PlateStack.of(Response.SRGB, 4000, frames));
        assertTrue(e.getMessage().contains("emitter 3"), e.getMessage());
        assertEquals(List.of(2), PlateStack.notTold(frames.stream().map(f -> f.levels()).toList()));
        assertEquals(
                List.of(1), PlateStack.notTold(List.of(new double[] {0, 0}, new double[] {1, 0})));
    }

    /** A slot of tint may drive two emitters at once: nobody ever wants one of them alone. */
    @Test
    void emittersThatOnlyChangeTogetherAreToldAsOne() {
        List<double[]> levels =
                List.of(
                        new double[] {0, 0, 0},
                        new double[] {1, 0, 0},
                        new double[] {0, 0.5, 0.25});
        double[] weights =
                new LevelSystem(levels, new double[] {1, 1, 1}, true)
                        .weights(1, new double[] {0.5, 0.25, 0.125});
        assertArrayEquals(new double[] {0, 0.5, 0.5}, weights, 1e-6);
        assertThrows(
                IllegalArgumentException.class,
                () ->
                        new LevelSystem(
                                List.of(new double[] {0, 0}, new double[] {1, 0}),
                                new double[] {1, 1},
                                true));
    }

    @Test
    void sizesAndLevelsThatDifferAreRefused() {
        BufferedImage small = new BufferedImage(20, 20, BufferedImage.TYPE_INT_RGB);
        assertThrows(
                IllegalArgumentException.class,
                () ->
                        PlateStack.of(
                                Response.SRGB,
                                4000,
                                List.of(
                                        taken(plain(1, 1, 1), 0),
                                        taken(CodedPicture.of(small), 1))));
        PlateStack stack =
                PlateStack.of(
                        Response.SRGB,
                        4000,
                        List.of(taken(plain(9, 9, 9), 0), taken(plain(99, 99, 99), 1)));
        assertThrows(
                IllegalArgumentException.class, () -> stack.picture(1, new double[2], 0.02, 4000));
        assertThrows(IllegalArgumentException.class, () -> stack.linear(41));
    }

    @Test
    void whatHangsOnABurntPlateIsCounted() {
        PlateStack burnt =
                PlateStack.of(
                        Response.SRGB,
                        4000,
                        List.of(taken(plain(30, 30, 30), 0), taken(plain(255, 200, 99), 1)));
        // A burnt light at a quarter: it may have been any brighter. Alone at full it is white.
        assertEquals(1, burnt.doubt(1, new double[] {0.25}, 0.02).burntShare());
        assertEquals(0, burnt.doubt(1, new double[] {0}, 0.02).burntShare());
        boolean[] marked = burnt.burnt(20);
        assertTrue(marked[0] && marked[marked.length - 1]);
    }

    @Test
    void pushedPlatesHaveMoreNoise() {
        PlateStack stack = TakenPlates.stack(BandOnSet.usual(), Response.SRGB, ToneCurve.PLAIN);
        double[] look = BandOnSet.levels(0, 0.5, 4, 0.5);
        double as = stack.doubt(1, look, BandOnSet.scale()).noiseStopsUnderWhite();
        double pushed = stack.doubt(1, look, 4 * BandOnSet.scale()).noiseStopsUnderWhite();
        assertEquals(2, as - pushed, 1e-6, "two stops of exposure are two stops of noise");
        double more =
                stack.doubt(
                                1,
                                BandOnSet.levels(0, 1, 1, 1, 2, 1, 3, 1, 4, 1, 8, 1),
                                BandOnSet.scale())
                        .noiseStopsUnderWhite();
        assertTrue(more < as, "all plates at full add their noise: " + more + " against " + as);
    }

    @Test
    void noiseIsForetoldAboutAsItIs() {
        // The same look from two sets of frames that differ in grain alone.
        BandOnSet set = BandOnSet.usual();
        Camera grainy = BandOnSet.camera();
        double[] look = BandOnSet.levels(0, 0.5, 1, 0.5, 4, 0.5);
        PlateStack one = TakenPlates.stack(set, Response.SRGB, ToneCurve.PLAIN, grainy);
        BufferedImage from = one.picture(1, look, BandOnSet.scale(), BandOnSet.KELVIN);
        BufferedImage real = set.clean(1, look, grainy, ToneCurve.PLAIN);
        double sum = 0;
        int n = 0;
        for (int y = 0; y < set.height(); y++) {
            for (int x = 0; x < set.width(); x++) {
                int is = from.getRGB(x, y) >> 8 & 255;
                int should = real.getRGB(x, y) >> 8 & 255;
                if (should < 40) {
                    double off = Response.SRGB.linear(1, is) - Response.SRGB.linear(1, should);
                    sum += off * off;
                    n++;
                }
            }
        }
        double stops = -Math.log(Math.sqrt(sum / n)) / Math.log(2);
        double told = one.doubt(1, look, BandOnSet.scale()).noiseStopsUnderWhite();
        assertEquals(stops, told, 2, "measured against told, stops under white");
    }

    @Test
    void smallPlatesAreTheMeanOfTheLightAndNotOfTheCodes() {
        BufferedImage stripes = new BufferedImage(40, 30, BufferedImage.TYPE_INT_RGB);
        for (int y = 0; y < 30; y++) {
            for (int x = 0; x < 40; x++) {
                stripes.setRGB(x, y, x % 2 == 0 ? 0 : 0xffffff);
            }
        }
        PlateStack stack =
                PlateStack.of(
                        Response.SRGB,
                        4000,
                        List.of(taken(CodedPicture.of(stripes), new double[0])));
        LinearPlates small = stack.linear(20);
        assertEquals(15, small.height());
        assertEquals(0.5f, small.plane(0)[17], 1e-6f);
    }

    @Test
    void linearPlatesAreTheRenderedOnes() {
        BandOnSet set = BandOnSet.usual();
        LinearPlates small = TakenPlates.stack(set, Response.SRGB, ToneCurve.PLAIN).linear(150);
        float[] blue = set.linear(0, BandOnSet.levels(7, 1), BandOnSet.camera()).toLinear();
        double off = 0;
        double all = 0;
        float[] is = small.plane(8);
        for (int y = 0; y < small.height(); y++) {
            for (int x = 0; x < 150; x++) {
                for (int c = 0; c < 3; c++) {
                    double mean = 0;
                    for (int k = 0; k < 16; k++) {
                        mean += blue[((y * 4 + k / 4) * 600 + x * 4 + k % 4) * 3 + c] / 16.0;
                    }
                    off += Math.abs(mean - is[(y * 150 + x) * 3 + c]);
                    all += Math.abs(mean);
                }
            }
        }
        assertTrue(off < 0.15 * all, "blue taken with white is off by " + off / all);
        boolean negative = false;
        for (float v : is) {
            negative |= v < -0.004f;
        }
        assertTrue(negative, "a blue that no screen shows has a channel below 0");
    }
}
