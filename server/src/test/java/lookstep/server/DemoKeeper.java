package lookstep.server;

import java.nio.file.Path;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.server.plan.edit.EditRefused;
import lookstep.server.plan.edit.PlanKeeper;
import lookstep.server.plan.file.DemoShoot;
import lookstep.server.plan.file.PlanReader;

/** The demo shoot as a program keeps it; nothing is written. */
final class DemoKeeper {
    private DemoKeeper() {}

    /** It would be written into this folder. */
    static PlanKeeper in(Path folder) {
        try {
            return PlanKeeper.unwritten(
                    folder.resolve(DemoShoot.NAME),
                    new PlanReader(GenericFixtures.all())::read,
                    DemoShoot.text());
        } catch (EditRefused broken) {
            throw new IllegalStateException(broken);
        }
    }
}
