package lookstep.server.look;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import lookstep.server.TestPlans;
import lookstep.server.look.Nudge.Power;
import lookstep.server.plan.Look;
import lookstep.server.plan.Look.Colour;
import lookstep.server.plan.Look.Level;
import lookstep.server.plan.Look.Setting;
import lookstep.server.plan.ShootPlan;
import lookstep.simulator.model.colour.WhiteBalance;
import lookstep.simulator.model.colour.Xyz;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class AdjustingTest {
    /** Key 100 %, fill a stop under, rim left a stop over, all in the camera's 4300 K. */
    private static final ShootPlan PLAN = TestPlans.threeShots();

    private static final Look SAFE = PLAN.look("safe");

    /** The front at the camera's 3000 K, the rim at 5600 K. */
    private static final Look WARM = PLAN.look("warm front, cold back");

    private static double lux(Look look, String light) {
        return LookLevels.range(PLAN, look, light).lux();
    }

    private static Adjustment nudge(String light, double stops, double mired) {
        return new Adjustment(Map.of(light, new Nudge(stops, mired, Power.AS_PLANNED)), false, 0);
    }

    @Test
    void nothingChangedIsTheSameLook() {
        assertSame(SAFE, Adjusting.of(PLAN, SAFE, Adjustment.NONE));
    }

    @ParameterizedTest
    @CsvSource({"key, -0.3333", "fill, 0.3333", "fill, -1", "rim left, -0.6667"})
    void oneLightMovesByItsStopsAndTheOthersStay(String light, double stops) {
        Look nudged = Adjusting.of(PLAN, SAFE, nudge(light, stops, 0));
        for (String each : new String[] {"key", "fill", "rim left"}) {
            double moved = LightRange.stops(lux(SAFE, each), lux(nudged, each));
            // 8-bit slots at these levels step by up to 0.05 stops (fill at about a fifth).
            assertEquals(each.equals(light) ? stops : 0, moved, 0.06, each);
        }
        assertEquals(0, lux(nudged, "top"), "off stays off");
    }

    @Test
    void warmerIsMiredAndTheLightStays() {
        Look nudged = Adjusting.of(PLAN, SAFE, nudge("key", 0, 20));
        // 1e6 / (1e6 / 4300 + 20) = 3959.5, in whole kelvin
        assertEquals(new Colour.Temperature(3959), nudged.lights().get("key").colour());
        assertEquals(SAFE.lights().get("fill").colour(), nudged.lights().get("fill").colour());
        assertEquals(0, LightRange.stops(lux(SAFE, "fill"), lux(nudged, "fill")), 0.06);
    }

    @Test
    void aColourDoesNotGetWarmer() {
        assertTrue(Adjusting.warmer(new Colour.Xy(0.2, 0.15), 10).isEmpty());
    }

    @Test
    void switchedOffIsOffAndWhatWasMeasuredAgainstItStays() {
        Adjustment off = Adjustment.NONE.with("key", Nudge.NONE.power(Power.OFF));
        Look nudged = Adjusting.of(PLAN, SAFE, off);
        assertFalse(nudged.lights().containsKey("key"));
        assertEquals(0, LightRange.stops(lux(SAFE, "fill"), lux(nudged, "fill")), 0.06);
        assertTrue(nudged.lights().get("fill").level() instanceof Level.Lux);
    }

    @Test
    void oneThatWasOffComesInAStopUnderTheKeyInTheCamerasWhite() {
        Adjustment on = Adjustment.NONE.with("top", Nudge.NONE.power(Power.ON));
        Look nudged = Adjusting.of(PLAN, SAFE, on);
        Setting top = nudged.lights().get("top");
        assertEquals(new Colour.Temperature(4300), top.colour());
        assertEquals(-1, LightRange.stops(lux(SAFE, "key"), lux(nudged, "top")), 0.06);
    }

    @Test
    void aLightThatThePlanNoLongerHasIsPassedOver() {
        Adjustment gone = Adjustment.NONE.with("gone", Nudge.NONE.power(Power.ON));
        assertEquals(SAFE.lights().keySet(), Adjusting.of(PLAN, SAFE, gone).lights().keySet());
    }

    @Test
    void leftAndRightExchangeWhatTheyGiveAndTheRatiosStay() {
        Look swapped =
                Adjusting.of(PLAN, SAFE, Adjustment.NONE.swap(LeftRight.counterparts(PLAN.rig())));
        assertEquals("fill", swapped.key());
        assertEquals(
                LightRange.stops(lux(SAFE, "key"), lux(SAFE, "fill")),
                LightRange.stops(lux(swapped, "fill"), lux(swapped, "key")),
                0.06);
        assertEquals(
                LightRange.stops(lux(SAFE, "key"), lux(SAFE, "rim left")),
                LightRange.stops(lux(swapped, "fill"), lux(swapped, "rim left")),
                0.06,
                "the rim has no counterpart, and keeps its distance from the key");
        double level = lux(swapped, "fill") / LookLevels.range(PLAN, swapped, "fill").mostLux();
        assertTrue(level <= 1, "no light is asked for more than it has: " + level);
    }

    @Test
    void aCameraThatStaysSeesTheSameDifferencesInMired() {
        Look steady = Adjusting.of(PLAN, WARM, Adjustment.NONE.cameraAt(4300));
        assertEquals(4300, steady.camera().kelvin());
        assertEquals(new Colour.Temperature(4300), steady.lights().get("key").colour());
        // 1e6/5600 - 1e6/3000 + 1e6/4300 = 77.8 mired
        assertEquals(
                12853,
                ((Colour.Temperature) steady.lights().get("rim left").colour()).kelvin(),
                30);
        for (String each : new String[] {"fill", "rim left"}) {
            assertEquals(
                    LightRange.stops(lux(WARM, "key"), lux(WARM, each)),
                    LightRange.stops(lux(steady, "key"), lux(steady, each)),
                    0.06,
                    each);
        }
    }

    /** Beyond the cold end of the locus the colour is carried over as the picture computes it. */
    @Test
    void beyondTheLocusTheColourInThePictureIsTheSame() {
        Look steady = Adjusting.of(PLAN, WARM, Adjustment.NONE.cameraAt(5600));
        Colour.Xy rim = (Colour.Xy) steady.lights().get("rim left").colour();
        double[] planned = seen(3000, new Colour.Temperature(5600));
        double[] now = seen(5600, rim);
        for (int i = 0; i < 3; i++) {
            assertEquals(planned[i], now[i], 1e-6, "channel " + i);
        }
        // Planck 5600 K seen at 3000 K, Bradford to D65, linear sRGB 0.39326 1.11337 2.74872:
        // computed outside of this project and confirmed there by the npm library colorjs.io.
        assertEquals(2.74872 / 1.11337, planned[2], 0.01);
    }

    /** Red, green, blue over green. */
    private static double[] seen(double camera, Colour colour) {
        WhiteBalance balance = new WhiteBalance(camera);
        Xyz light = WantedColour.of(colour, balance).toXyz(1);
        double[] rgb = balance.linearSrgb(light);
        return new double[] {rgb[0] / rgb[1], 1, rgb[2] / rgb[1]};
    }

    @Test
    void hueAndSaturationAreSaidAsTheCameraSeesThemAndStay() {
        Colour hue = new Colour.HueSaturation(220, 0.8);
        assertSame(hue, SteadyCamera.colour(hue, 3000, 5600));
    }

    @Test
    void threeThirdsUpAndThreeDownAreNothing() {
        Nudge nudge = Nudge.NONE;
        for (int i = 0; i < 3; i++) {
            nudge = nudge.brighter(1.0 / 3).warmer(10);
        }
        for (int i = 0; i < 3; i++) {
            nudge = nudge.brighter(-1.0 / 3).warmer(-10);
        }
        assertEquals(Nudge.NONE, nudge);
        assertTrue(Adjustment.NONE.with("key", nudge).none());
    }
}
