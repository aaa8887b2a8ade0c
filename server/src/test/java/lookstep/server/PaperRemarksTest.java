package lookstep.server;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.List;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.server.look.LookLevels;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.file.DemoShoot;
import lookstep.server.plan.file.PlanReader;
import lookstep.server.plan.file.PlanReading;
import org.junit.jupiter.api.Test;

class PaperRemarksTest {
    private static ShootPlan with(String what, String instead) {
        String text = DemoShoot.text();
        assertTrue(text.contains(what), what);
        PlanReading reading =
                new PlanReader(GenericFixtures.all())
                        .read(text.replace(what, instead).getBytes(StandardCharsets.UTF_8));
        return ((PlanReading.Good) reading).plan();
    }

    /** From ten metres away the rim cannot give what it does in the demo. */
    @Test
    void whatLightsCannotDoIsSaidOfWhereTheyStandInAPlaceThatIsAlone() {
        ShootPlan plan =
                with(
                        "  walls: brick\n",
                        "  walls: brick\n"
                                + "  lights: [key, fill, {name: rim, position: [-10, 1.6, 2.7]},"
                                + " top]\n");
        List<String> there = LookLevels.of(plan.at(""), plan.look("safe")).notes();
        assertEquals(List.of(), LookLevels.of(plan, plan.look("safe")).notes());
        assertTrue(!there.isEmpty() && PaperRemarks.of(plan).containsAll(there));
    }
}
