package lookstep.simulator.model.plates;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import lookstep.simulator.gear.BandOnSet;
import lookstep.simulator.gear.ToneCurve;
import lookstep.simulator.model.light.Luminaire;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.plates.PlateFit.Change;
import lookstep.simulator.model.space.Vec3;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** What a later frame says of the house and of each light, judged by the background alone. */
class PlateFitTest {
    private static final int WIDTH = 200;
    private static final double[] LOOK =
            BandOnSet.levels(0, 0.5, 1, 0.3, 2, 0.6, 4, 0.5, 8, 0.3, 7, 0.5);

    private static LinearPlates plates;
    private static boolean[] background;

    @BeforeAll
    static void takePlates() {
        BandOnSet set = BandOnSet.usual();
        plates = TakenPlates.stack(set, Response.SRGB, ToneCurve.PLAIN).linear(WIDTH);
        background = TakenPlates.background(Cast.of(set.plates(), WIDTH, plates.height()));
    }

    private static Lit lit(double[] levels) {
        return new Lit(1, levels, BandOnSet.LIGHT_OF, BandOnSet.scale(), BandOnSet.KELVIN);
    }

    private static float[] frame(BandOnSet set, double house, double[] levels, double exposure) {
        Camera c = BandOnSet.camera();
        CodedPicture picture =
                CodedPicture.of(
                        set.frame(
                                house,
                                levels,
                                c.withExposure(c.fNumber(), c.seconds() * exposure, c.iso()),
                                ToneCurve.PLAIN,
                                999));
        return new Boxes(picture.width(), picture.height(), WIDTH).mean(picture, Response.SRGB);
    }

    private static PlateFit.Found fit(double house, double[] levels, double exposure) {
        return PlateFit.of(
                frame(BandOnSet.usual(), house, levels, exposure), plates, lit(LOOK), background);
    }

    private static void assertUnchanged(PlateFit.Found found, int except) {
        for (int l = 0; l < found.lights().size(); l++) {
            if (l != except) {
                assertEquals(Change.NONE, found.lights().get(l).change(), l + " of " + found);
            }
        }
    }

    @Test
    void theSameLookIsTheSame() {
        PlateFit.Found found = fit(1, LOOK, 1);
        assertUnchanged(found, -1);
        assertEquals(Change.NONE, found.house().change());
        assertEquals(0, found.exposureStops());
        assertTrue(found.residualShare() < 0.04, "" + found);
        assertTrue(found.lights().get(0).certainty() > 0.8, "" + found);
    }

    @Test
    void aDimmedLightIsToldWithItsStops() {
        for (int light = 0; light < 3; light++) {
            double[] levels = LOOK.clone();
            for (int e = 0; e < levels.length; e++) {
                levels[e] *= BandOnSet.LIGHT_OF.get(e) == light ? 0.5 : 1;
            }
            PlateFit.Found found = fit(1, levels, 1);
            assertUnchanged(found, light);
            assertEquals(Change.NONE, found.house().change());
            assertEquals(Change.LEVEL, found.lights().get(light).change(), "" + found);
            assertEquals(-1, found.lights().get(light).stops(), 0.1);
            assertTrue(found.lights().get(light).certainty() > 0.7, "" + found);
        }
    }

    @Test
    void aLightThatIsOffAndOneThatIsOnByMistake() {
        double[] levels = LOOK.clone();
        levels[2] = 0;
        PlateFit.Found off = fit(1, levels, 1);
        assertUnchanged(off, 1);
        assertTrue(off.lights().get(1).stops() <= -4, "" + off);
        double[] planned = LOOK.clone();
        planned[4] = 0;
        PlateFit.Found on =
                PlateFit.of(frame(BandOnSet.usual(), 1, LOOK, 1), plates, lit(planned), background);
        assertUnchanged(on, 2);
        assertEquals(Change.LIT, on.lights().get(2).change(), "" + on);
        assertEquals(-1, on.lights().get(2).stops(), 0.15);
    }

    @Test
    void aHouseThatWasTurnedUpIsTheHouse() {
        PlateFit.Found found = fit(2, LOOK, 1);
        assertUnchanged(found, -1);
        assertEquals(Change.LEVEL, found.house().change());
        assertEquals(1, found.house().stops(), 0.1);
    }

    @Test
    void anotherExposureIsNoLight() {
        PlateFit.Found found = fit(1, LOOK, 0.5);
        assertUnchanged(found, -1);
        assertEquals(Change.NONE, found.house().change());
        assertEquals(-1, found.exposureStops(), 0.12);
    }

    @Test
    void anotherColourIsAColour() {
        double[] levels = LOOK.clone();
        levels[0] = 0.1;
        levels[1] = 0.7;
        PlateFit.Found found = fit(1, levels, 1);
        assertUnchanged(found, 0);
        assertEquals(Change.COLOUR, found.lights().get(0).change());
        assertTrue(found.lights().get(0).redStops() < -0.3, "colder: " + found);
        assertTrue(found.lights().get(0).blueStops() > 0.3, "colder: " + found);
    }

    @Test
    void swappedRimsAreBothNamed() {
        // One gets what the other should have: its blue is gone, and the cold one is dimmer.
        double[] levels = LOOK.clone();
        levels[4] = 0.3;
        levels[8] = 0.5;
        levels[7] = 0;
        PlateFit.Found found = fit(1, levels, 1);
        assertEquals(Change.NONE, found.lights().get(0).change());
        assertEquals(Change.NONE, found.lights().get(1).change());
        assertEquals(Change.LEVEL, found.lights().get(2).change());
        assertEquals(Math.log(0.6) / Math.log(2), found.lights().get(2).stops(), 0.12);
        assertEquals(Change.COLOUR, found.lights().get(3).change());
        assertTrue(found.lights().get(3).blueStops() < -1, "" + found);
    }

    private static PlateFit.Found moved(int light, Luminaire to) {
        List<Luminaire> lamps = BandOnSet.lamps();
        lamps.set(light, to);
        BandOnSet set =
                BandOnSet.of(
                        BandOnSet.scene(BandOnSet.standing(0), lamps),
                        BandOnSet.camera(),
                        600,
                        400);
        return PlateFit.of(frame(set, 1, LOOK, 1), plates, lit(LOOK), background);
    }

    @Test
    void aLightThatWasTurnedOrMovedIsNotCalledDimmed() {
        PlateFit.Found rim =
                moved(2, new Luminaire(new Vec3(-2, 2.5, 3), new Vec3(-1.5, -0.8, 1), 50, 0.3));
        assertUnchanged(rim, 2);
        assertEquals(Change.PATTERN, rim.lights().get(2).change(), "" + rim);
        PlateFit.Found key =
                moved(0, new Luminaire(new Vec3(-1.2, -3.2, 2.2), new Vec3(0, 0.2, 1.35), 70, 0.9));
        assertUnchanged(key, 0);
        assertEquals(Change.PATTERN, key.lights().get(0).change(), "" + key);
        PlateFit.Found same = fit(1, LOOK, 1);
        assertTrue(key.residualShare() > 2 * same.residualShare(), "shadows moved: " + key);
        // The shadows that moved are not explained, and it says so.
        assertTrue(key.lights().get(1).certainty() < 0.6, "" + key);
    }

    @Test
    void whatDoesNotFitTogetherIsRefused() {
        float[] frame = frame(BandOnSet.usual(), 1, LOOK, 1);
        boolean[] none = new boolean[background.length];
        Exception e =
                assertThrows(
                        IllegalArgumentException.class,
                        () -> PlateFit.of(frame, plates, lit(LOOK), none));
        assertTrue(e.getMessage().contains("only 0 pixels"), e.getMessage());
        assertThrows(
                IllegalArgumentException.class,
                () -> PlateFit.of(new float[3], plates, lit(LOOK), background));
        assertThrows(
                IllegalArgumentException.class,
                () -> new Lit(1, new double[2], BandOnSet.LIGHT_OF, 1, 4000));
    }
}
