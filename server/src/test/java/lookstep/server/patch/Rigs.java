package lookstep.server.patch;

import java.util.List;
import lookstep.protocols.fixture.DimmingCurve;
import lookstep.protocols.fixture.Emitter;
import lookstep.protocols.fixture.Fixture;
import lookstep.protocols.fixture.Mode;
import lookstep.server.RandomRigs;
import lookstep.server.plan.Light;
import lookstep.server.plan.ShootPlan;

/** Rigs of which only the patch counts. */
final class Rigs {
    private Rigs() {}

    static Light light(String name, Fixture fixture, String mode, int universe, int slot) {
        return new RandomRigs(1)
                .light(name, fixture, fixture.mode(mode).orElseThrow(), universe, slot);
    }

    static ShootPlan plan(Light... rig) {
        return RandomRigs.withRig(List.of(rig));
    }

    /** A white lamp, linear, with these modes. */
    static Fixture white(Mode... modes) {
        return new Fixture(
                "lamp",
                "a lamp",
                List.of(new Emitter("white", 0.3805, 0.3767, 100)),
                DimmingCurve.LINEAR,
                40,
                20,
                List.of(modes));
    }
}
