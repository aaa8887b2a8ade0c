package lookstep.server.plates;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.Optional;
import lookstep.server.look.LookLevels;
import lookstep.server.plates.PlateWatch.Later;
import lookstep.server.plates.SimulatedSet.Truth;
import org.junit.jupiter.api.Test;

/** A later frame of a set that is known to differ in one thing. */
class PlateChangeTest {
    private static Optional<String> seen(Truth then, Truth now) throws IOException {
        return PlateChange.seen(
                new Later(
                        new SimulatedSet(now).frame(),
                        new SimulatedSet(then).plates(),
                        SimulatedSet.PLAN,
                        SimulatedSet.SHOT,
                        LookLevels.of(SimulatedSet.PLAN, SimulatedSet.LOOK).levels()));
    }

    private static void assertSays(String words, Truth now) throws IOException {
        Optional<String> seen = seen(Truth.AS_PLANNED, now);
        assertTrue(seen.filter(s -> s.contains(words)).isPresent(), seen.toString());
    }

    @Test
    void whereNothingHasChangedNothingIsSaid() throws IOException {
        assertEquals(Optional.empty(), seen(Truth.AS_PLANNED, Truth.AS_PLANNED));
    }

    /** It brings next to nothing in this look. */
    @Test
    void aHouseThatIsHardlySeenMayBeAnything() throws IOException {
        assertEquals(Optional.empty(), seen(Truth.AS_PLANNED, Truth.AS_PLANNED.house(0.3)));
    }

    @Test
    void peopleMayStandAHandsBreadthAside() throws IOException {
        assertEquals(Optional.empty(), seen(Truth.AS_PLANNED, Truth.AS_PLANNED.people(0.05)));
    }

    @Test
    void theBandInPlaceOfAStandInIsNoChange() throws IOException {
        assertEquals(Optional.empty(), seen(Truth.AS_PLANNED.withStandIn(), Truth.AS_PLANNED));
    }

    @Test
    void aCameraThatWasMovedIsTold() throws IOException {
        assertSays("the camera has moved", Truth.AS_PLANNED.camera(0.12));
    }

    @Test
    void aBrighterHouseIsTold() throws IOException {
        assertSays("the house light is", Truth.AS_PLANNED.house(16));
    }

    @Test
    void aLightThatGivesLessIsTold() throws IOException {
        assertSays("‘rim’ is", Truth.AS_PLANNED.rim(0.3));
    }

    @Test
    void aLightThatWasMovedIsTold() throws IOException {
        assertSays("was a light moved", Truth.AS_PLANNED.rimAside(1.5));
    }
}
