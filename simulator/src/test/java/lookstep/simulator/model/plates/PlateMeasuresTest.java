package lookstep.simulator.model.plates;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import lookstep.simulator.gear.BandOnSet;
import lookstep.simulator.gear.ToneCurve;
import lookstep.simulator.model.colour.Srgb;
import lookstep.simulator.model.picture.LinearPicture;
import lookstep.simulator.model.picture.Part;
import org.junit.jupiter.api.Test;

class PlateMeasuresTest {
    private static final double[] LOOK = BandOnSet.levels(0, 0.4, 1, 0.4, 2, 0.3, 4, 0.6);

    private static double log2(double v) {
        return Math.log(v) / Math.log(2);
    }

    /** The left half one person, all skin; the right half background. */
    private static Cast halves() {
        short[] figure = new short[20 * 20];
        boolean[] skin = new boolean[400];
        for (int p = 0; p < 400; p++) {
            figure[p] = (short) (p % 20 < 10 ? 0 : -1);
            skin[p] = p % 20 < 10;
        }
        return new Cast(20, 20, figure, skin);
    }

    private static float[] plane(float left, float right) {
        float[] plane = new float[1200];
        for (int i = 0; i < 1200; i++) {
            plane[i] = i / 3 % 20 < 10 ? left : right;
        }
        return plane;
    }

    @Test
    void greysThatAreKnownAreCounted() {
        LinearPlates plates =
                new LinearPlates(
                        20, 20, 4000, 1, new float[][] {plane(0.06f, 0.03f), plane(0.6f, 0.06f)});
        Lit lit = new Lit(1, new double[] {0.5}, List.of(0), 1, 4000);
        PlateMeasures m = PlateMeasures.of(plates, halves(), lit);
        // 0.06 + 0.5 x 0.6 = 0.36: one stop over mid grey; 0.03 + 0.03 = 0.06 behind it.
        PlateMeasures.Person person = m.people().get(0);
        assertEquals(1, person.skinStopsOverGrey(), 1e-6);
        assertEquals(log2(0.36), person.skinStopsOverWhite(), 1e-6);
        assertEquals(log2(6), person.separationStops(), 1e-6);
        assertEquals(log2(6), person.outlineStops(), 1e-6);
        assertEquals(log2(6), m.peopleOverBackgroundStops(), 1e-6);
        assertEquals(log2(0.06 / 0.18), m.backgroundStops(), 1e-6);
        assertEquals(1 / 6.0, m.houseOnPeople(), 1e-6);
        assertEquals(5 / 6.0, m.lightsOnPeople().get(0), 1e-6);
        assertEquals(0.5, m.houseOnBackground(), 1e-6);
        assertEquals(0, person.burntShare());
        Lit bright = new Lit(1, new double[] {0.5}, List.of(0), 4, 4000);
        assertEquals(1, PlateMeasures.of(plates, halves(), bright).people().get(0).burntShare());
    }

    @Test
    void separationsAndSkinsAreThoseOfTheRenderedPicture() {
        BandOnSet set = BandOnSet.usual();
        LinearPlates plates =
                TakenPlates.stack(set, Response.SRGB, ToneCurve.PLAIN).linear(set.width());
        Cast cast = Cast.of(set.plates(), set.width(), set.height());
        Lit lit = new Lit(1, LOOK, BandOnSet.LIGHT_OF, BandOnSet.scale(), BandOnSet.KELVIN);
        PlateMeasures m = PlateMeasures.of(plates, cast, lit);
        LinearPicture picture = set.linear(1, LOOK, BandOnSet.camera());
        int[] owners = owners(set, cast);
        for (int f = 0; f < 5; f++) {
            double[] rgb = picture.meanOf(owners[f], Part.SKIN);
            assertEquals(
                    log2(Srgb.luminance(rgb[0], rgb[1], rgb[2]) / 0.18),
                    m.people().get(f).skinStopsOverGrey(),
                    0.25,
                    "skin of " + f);
            assertEquals(
                    picture.separationStops(owners[f]),
                    m.people().get(f).separationStops(),
                    0.5,
                    "separation of " + f);
        }
        double sum =
                m.houseOnPeople()
                        + m.lightsOnPeople().stream().mapToDouble(Double::doubleValue).sum();
        assertEquals(1, sum, 1e-6);
    }

    @Test
    void eachLightHasItsShareOfWhatTheRenderedLightsBring() {
        BandOnSet set = BandOnSet.usual();
        LinearPlates plates =
                TakenPlates.stack(set, Response.SRGB, ToneCurve.PLAIN).linear(set.width());
        Cast cast = Cast.of(set.plates(), set.width(), set.height());
        Lit lit = new Lit(1, LOOK, BandOnSet.LIGHT_OF, BandOnSet.scale(), BandOnSet.KELVIN);
        PlateMeasures m = PlateMeasures.of(plates, cast, lit);
        double all = onPeople(set, cast, 1, LOOK);
        double key = onPeople(set, cast, 0, BandOnSet.levels(0, 0.4, 1, 0.4));
        double rim = onPeople(set, cast, 0, BandOnSet.levels(4, 0.6));
        assertEquals(key / all, m.lightsOnPeople().get(0), 0.02);
        assertEquals(rim / all, m.lightsOnPeople().get(2), 0.02);
        assertEquals(0, m.lightsOnPeople().get(3), 1e-9, "it is off");
        assertTrue(key > rim, "so that the two differ");
    }

    private static double onPeople(BandOnSet set, Cast cast, double house, double[] levels) {
        float[] rgb = set.linear(house, levels, BandOnSet.camera()).toLinear();
        double sum = 0;
        for (int p = 0; p < cast.figure().length; p++) {
            if (cast.figure()[p] >= 0) {
                sum += Srgb.luminance(rgb[p * 3], rgb[p * 3 + 1], rgb[p * 3 + 2]);
            }
        }
        return sum;
    }

    /** The scene's place of each person of the cast. */
    private static int[] owners(BandOnSet set, Cast cast) {
        int[] owners = new int[cast.people()];
        Arrays.fill(owners, -1);
        for (int p = 0; p < cast.figure().length; p++) {
            if (cast.figure()[p] >= 0) {
                owners[cast.figure()[p]] = set.plates().ownerAt(p % set.width(), p / set.width());
            }
        }
        return owners;
    }

    @Test
    void sizesMustBeAlike() {
        LinearPlates plates = new LinearPlates(4, 4, 4000, 1, new float[2][48]);
        Lit lit = new Lit(1, new double[1], List.of(0), 1, 4000);
        assertThrows(IllegalArgumentException.class, () -> PlateMeasures.of(plates, halves(), lit));
    }
}
