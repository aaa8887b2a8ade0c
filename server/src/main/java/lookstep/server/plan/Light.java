package lookstep.server.plan;

import lookstep.protocols.fixture.Fixture;
import lookstep.protocols.fixture.Mode;
import lookstep.simulator.model.space.Vec3;

/**
 * One light as placed.
 *
 * @param name how it is called on the set
 * @param fixture what it is
 * @param mode which of the fixture's modes it is set to
 * @param universe 1 or more
 * @param startSlot first slot, 1..512; the mode's slots end at 512 or before
 * @param position where its front is, metres
 * @param aim the point it looks at, metres
 * @param modifier what is in front of it
 */
public record Light(
        String name,
        Fixture fixture,
        Mode mode,
        int universe,
        int startSlot,
        Vec3 position,
        Vec3 aim,
        Modifier modifier) {
    /** The same light, stood elsewhere; where it is for null. */
    public Light placed(Placing where) {
        return where == null
                ? this
                : new Light(
                        name,
                        fixture,
                        mode,
                        universe,
                        startSlot,
                        where.position(),
                        where.aim(),
                        modifier);
    }
}
