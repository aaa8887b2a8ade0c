package lookstep.server.measuring;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import lookstep.server.checks.MeasuredLight.Factors;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plates.SimulatedSet;
import lookstep.server.plates.SimulatedSet.Truth;
import org.junit.jupiter.api.Test;

/**
 * Frames of a simulated set that differs from the plan in one known thing, through 8-bit JPEG: what
 * is measured in them is that thing, and nothing else.
 */
class MeasuredSceneTest {
    private static final ShootPlan PLAN = SimulatedSet.PLAN;

    /** A quarter of a stop: the outline that is found is not the outline that is there. */
    private static final double WITHIN_STOPS = 0.25;

    /** Of somebody who stands elsewhere it is guessed how far behind, so the light is too. */
    private static final double ASIDE_STOPS = 0.4;

    private static MeasuredScene scene(Truth truth) throws IOException {
        return MeasuredScene.of(new SimulatedSet(truth).plates(), PLAN, "measured");
    }

    private static double stops(double factor) {
        return Math.log(factor) / Math.log(2);
    }

    private static void assertLights(MeasuredScene scene, double rimStops, double onPeople) {
        for (int l = 0; l < PLAN.rig().size(); l++) {
            String name = PLAN.rig().get(l).name();
            Factors f = scene.light().lights().get(l);
            double wanted = name.equals("rim") ? rimStops : 0;
            String says = name + " " + f + ", certainty " + scene.certainty();
            assertEquals(wanted, stops(f.background()), WITHIN_STOPS, says);
            assertEquals(wanted, stops(f.floor()), WITHIN_STOPS, says);
            assertEquals(wanted, stops(f.people()), onPeople, says);
        }
    }

    @Test
    void ofASetAsPlannedNothingIsOtherwiseThanComputed() throws IOException {
        MeasuredScene scene = scene(Truth.AS_PLANNED);
        assertTrue(scene.certainty() > 0.5, "certainty " + scene.certainty());
        assertTrue(scene.doubts().isEmpty(), scene.doubts().toString());
        assertLights(scene, 0, WITHIN_STOPS);
    }

    @Test
    void aHouseThatIsTwoStopsBrighterIsFoundAndNoLightIsBlamed() throws IOException {
        MeasuredScene scene = scene(Truth.AS_PLANNED.house(4));
        Factors house = scene.light().house();
        assertEquals(2, stops(house.people()), WITHIN_STOPS, house.toString());
        assertEquals(2, stops(house.floor()), WITHIN_STOPS, house.toString());
        assertLights(scene, 0, WITHIN_STOPS);
    }

    @Test
    void aLightThatGivesHalfIsFoundAndNoOtherIsBlamed() throws IOException {
        assertLights(scene(Truth.AS_PLANNED.rim(0.5)), -1, WITHIN_STOPS);
    }

    @Test
    void peopleWhoStandAHandsBreadthBesideTheirPlacesAreFound() throws IOException {
        MeasuredScene scene = scene(Truth.AS_PLANNED.people(0.1));
        assertTrue(scene.certainty() > 0.5, "certainty " + scene.certainty());
        assertLights(scene, 0, ASIDE_STOPS);
    }
}
