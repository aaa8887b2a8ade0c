package lookstep.server;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.List;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.server.checks.Finding;
import lookstep.server.checks.Kind;
import lookstep.server.checks.PlanChecks;
import lookstep.server.checks.Weight;
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

    @Test
    void whatIsWrongOrToBeLookedAtIsOnPaperTheGravestFirst() {
        ShootPlan plan = with("lens: 50\n    distance: 3.2", "lens: 85\n    distance: 2.4");
        List<String> said = PaperRemarks.of(plan);
        List<Finding> found = PlanChecks.of(plan).findings();
        Finding cut =
                found.stream()
                        .filter(f -> f.kind() == Kind.FRAMING && f.weight() == Weight.WRONG)
                        .findFirst()
                        .orElseThrow();
        String line =
                "WRONG: tight-five, " + cut.says() + ". Mend: " + cut.mend().orElseThrow().says();
        assertTrue(said.contains(line), said.toString());
        long wrong = said.stream().filter(s -> s.startsWith("WRONG: ")).count();
        assertTrue(said.subList(0, (int) wrong).contains(line));
        assertTrue(
                found.stream()
                        .filter(f -> f.weight() == Weight.GOOD)
                        .noneMatch(f -> said.stream().anyMatch(s -> s.contains(f.says()))));
    }

    @Test
    void itIsAPageAtMostAndSaysHowManyMoreThereAre() {
        ShootPlan plan = with("camera: {f: 8, time: 1/100,", "camera: {f: 1.4, time: 1/30,");
        List<String> said = PaperRemarks.of(plan);
        assertEquals(25, said.size());
        assertTrue(
                said.get(24).matches("and \\d+ more: lookstep check names them all"), said.get(24));
    }
}
