package lookstep.server.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;

import com.fasterxml.jackson.databind.json.JsonMapper;
import java.nio.file.Path;
import java.util.List;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.server.lighting.Lightings;
import lookstep.server.live.Event.PlateTaken;
import lookstep.server.live.Event.PlatesBegun;
import lookstep.server.live.Journal;
import lookstep.server.live.Live;
import lookstep.server.live.NotPossible;
import lookstep.server.plan.Circumstances;
import lookstep.server.plan.Location;
import lookstep.server.plan.Place;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.file.DemoShoot;
import lookstep.server.plates.PlateBeginning;
import lookstep.server.plates.PlatesNow;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What presses about plates refuse. */
class PlatePressesTest {
    private static final long NINE = 1_795_640_400_000L;

    @TempDir Path dir;

    /** The demo, with the same room and rig once more under another name. */
    private static ShootPlan twoPlaces() {
        ShootPlan one = DemoShoot.read(GenericFixtures.all());
        Place p = one.place();
        Place yard =
                new Place(
                        "the yard",
                        p.widthMetres(),
                        p.depthMetres(),
                        p.heightMetres(),
                        p.backgroundMetres(),
                        p.backgroundReflectance(),
                        p.floorReflectance(),
                        p.wallReflectance());
        Circumstances around = one.around();
        return new ShootPlan(
                one.title(),
                p,
                one.house(),
                one.windowSeconds(),
                one.people(),
                one.rig(),
                one.looks(),
                one.workLight(),
                one.flashingAllowed(),
                one.shots(),
                new Circumstances(
                        List.of(one.location(), Location.of(yard, one.house(), one.rig())),
                        around.sensor(),
                        around.times(),
                        around.jobs(),
                        around.band()));
    }

    @Test
    void platesOfOnePlaceCannotBeDeclaredGoodAtAnother() throws Exception {
        Lightings lightings = new Lightings(twoPlaces());
        try (Journal journal = Journal.open(dir.resolve("journal"))) {
            Live live = new Live(journal, lightings::possible, "hash", () -> NINE);
            PlatesBegun begun =
                    PlateBeginning.of(lightings.of(live.state()), live.state(), true, NINE);
            live.beginPlates(begun);
            for (int step = 0; step < begun.steps().size(); step++) {
                live.plateTaken(new PlateTaken(begun.id(), step, step + 1, ""));
            }
            PlatePresses presses =
                    new PlatePresses(live, lightings, () -> PlatesNow.NONE, () -> NINE);
            PlatePresses.Press good =
                    presses.plates(
                                    JsonMapper.builder()
                                            .build()
                                            .createObjectNode()
                                            .put("do", "nothing moved")
                                            .put("id", begun.id()))
                            .orElseThrow();
            live.moveTo("the yard");
            assertEquals(
                    "they were taken at ‘the Brine Loft’, and the shoot is at ‘the yard’: take new ones here",
                    assertThrows(NotPossible.class, good::make).getMessage());
            assertFalse(live.state().plates().set().orElseThrow().stale().isEmpty());
            live.moveTo("the Brine Loft");
            good.make();
            assertEquals("", live.state().plates().set().orElseThrow().stale());
        }
    }
}
