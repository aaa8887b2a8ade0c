package lookstep.server.plan;

import lookstep.simulator.model.space.Vec3;

/**
 * Where a light stands.
 *
 * @param position where its front is, metres
 * @param aim the point it looks at, metres
 */
public record Placing(Vec3 position, Vec3 aim) {}
