package lookstep.simulator.model.plates;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import lookstep.simulator.gear.BandOnSet;
import lookstep.simulator.gear.ToneCurve;
import lookstep.simulator.model.picture.Part;
import lookstep.simulator.model.space.Vec3;
import org.junit.jupiter.api.Test;

/** People in taken plates, against what the simulator knows to be there. */
class CastFindingTest {
    private static final int WIDTH = 300;

    private static Cast cast(BandOnSet set) {
        return Cast.of(set.plates(), WIDTH, 200);
    }

    private static CastFinding.Found find(BandOnSet set, Cast prior) {
        return CastFinding.of(
                TakenPlates.stack(set, Response.SRGB, ToneCurve.PLAIN).linear(WIDTH), prior);
    }

    private static BandOnSet with(List<Vec3> places) {
        return BandOnSet.of(BandOnSet.scene(places), BandOnSet.camera(), 600, 400);
    }

    /** Intersection over union of one person; of all for -1. */
    private static double overlap(Cast a, Cast b, int person) {
        int both = 0;
        int either = 0;
        for (int p = 0; p < a.figure().length; p++) {
            boolean x = person < 0 ? a.figure()[p] >= 0 : a.figure()[p] == person;
            boolean y = person < 0 ? b.figure()[p] >= 0 : b.figure()[p] == person;
            both += x && y ? 1 : 0;
            either += x || y ? 1 : 0;
        }
        return both / (double) either;
    }

    @Test
    void peopleWhereTheyShouldBeStay() {
        BandOnSet set = BandOnSet.usual();
        CastFinding.Found found = find(set, cast(set));
        assertTrue(overlap(found.cast(), cast(set), -1) > 0.95);
        for (CastFinding.Person person : found.people()) {
            assertEquals(0, person.shiftX(), 0.007);
            assertEquals(0, person.shiftY(), 0.011);
        }
    }

    @Test
    void peopleTenCentimetresBesideAreFound() {
        Cast prior = cast(BandOnSet.usual());
        List<Vec3> places = new ArrayList<>();
        double[] right = {0.1, -0.1, 0.1, 0.05, -0.1};
        for (int i = 0; i < 5; i++) {
            places.add(BandOnSet.standing(0).get(i).plus(new Vec3(right[i], 0.05 * (i - 2), 0)));
        }
        BandOnSet set = with(places);
        Cast truth = cast(set);
        CastFinding.Found found = find(set, prior);
        double all = overlap(found.cast(), truth, -1);
        String what = "prior %.3f, found %.3f".formatted(overlap(prior, truth, -1), all);
        assertTrue(all > 0.88, what);
        assertTrue(overlap(prior, truth, -1) < 0.7, what);
        for (int person = 0; person < 5; person++) {
            double one = overlap(found.cast(), truth, person);
            assertTrue(one > 0.82, person + ": " + one);
            // 36 mm at 50 mm from about 4.8 m: 3.5 m across.
            assertEquals(right[person] / 3.5, found.people().get(person).shiftX(), 0.012, what);
        }
        assertTrue(found.certainty() > 0.6, "" + found.people());
        int right2 = 0;
        int skin = 0;
        for (int p = 0; p < truth.skin().length; p++) {
            skin += truth.skin()[p] ? 1 : 0;
            right2 += truth.skin()[p] && found.cast().skin()[p] ? 1 : 0;
        }
        assertTrue(right2 > 0.7 * skin, "of the skin " + right2 + " of " + skin);
    }

    @Test
    void somebodyWhoIsNotThereIsLessCertainThanOneWhoIs() {
        List<Vec3> places = new ArrayList<>(BandOnSet.standing(0));
        places.set(0, new Vec3(30, -40, 0));
        BandOnSet set = with(places);
        assertEquals(4, cast(set).people());
        CastFinding.Found found = find(set, cast(BandOnSet.usual()));
        double absent = found.people().get(0).certainty();
        for (int person = 1; person < 5; person++) {
            double present = found.people().get(person).certainty();
            assertTrue(present > absent + 0.2, "absent " + absent + ", present " + present);
        }
    }

    @Test
    void theRenderedSceneCountsPeopleFromTheLeft() {
        List<Vec3> places = new ArrayList<>(BandOnSet.standing(0));
        java.util.Collections.swap(places, 0, 4);
        BandOnSet set = with(places);
        Cast cast = cast(set);
        double[] x = new double[5];
        int[] n = new int[5];
        for (int p = 0; p < cast.figure().length; p++) {
            if (cast.figure()[p] >= 0) {
                x[cast.figure()[p]] += p % WIDTH;
                n[cast.figure()[p]]++;
            }
        }
        for (int f = 1; f < 5; f++) {
            assertTrue(x[f] / n[f] > x[f - 1] / n[f - 1], "" + f);
        }
        assertEquals(
                Part.SKIN,
                set.plates().partAt(skin(cast) % WIDTH * 2 + 1, skin(cast) / WIDTH * 2 + 1));
    }

    private static int skin(Cast cast) {
        int p = 0;
        while (!cast.skin()[p]) {
            p++;
        }
        return p;
    }

    @Test
    void sizesMustBeAlike() {
        LinearPlates plates = new LinearPlates(4, 4, 4000, 1, new float[2][48]);
        assertThrows(
                IllegalArgumentException.class,
                () -> CastFinding.of(plates, cast(BandOnSet.usual())));
    }
}
