package lookstep.server;

import java.nio.charset.StandardCharsets;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.file.DemoShoot;
import lookstep.server.plan.file.PlanReader;
import lookstep.server.plan.file.PlanReading;

/** The demo, read. */
public final class DemoPlan {
    private DemoPlan() {}

    /** At its first place. */
    public static ShootPlan read() {
        PlanReading reading =
                new PlanReader(GenericFixtures.all()).read(DemoShoot.text().getBytes(StandardCharsets.UTF_8));
        return ((PlanReading.Good) reading).plan().at("");
    }
}
