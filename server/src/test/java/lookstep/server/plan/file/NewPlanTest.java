package lookstep.server.plan.file;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.List;
import lookstep.server.plan.ShootPlan;
import org.junit.jupiter.api.Test;

class NewPlanTest {
    @Test
    void itReadsWithoutErrorsAndWarnings() {
        PlanReading reading =
                new PlanReader(Kit.FIXTURES).read(NewPlan.text().getBytes(StandardCharsets.UTF_8));
        if (reading instanceof PlanReading.Bad bad) {
            assertEquals(List.of(), bad.errors());
        }
        PlanReading.Good good = assertInstanceOf(PlanReading.Good.class, reading);
        assertEquals(List.of(), good.warnings());
        ShootPlan plan = good.plan();
        assertEquals("New shoot", plan.title());
        assertEquals(1, plan.people().size());
        assertEquals("key", plan.rig().get(0).name());
        assertEquals("safe", plan.looks().get(0).name());
        assertEquals(1, plan.shots().size());
        assertTrue(plan.shots().get(0).safe());
    }
}
