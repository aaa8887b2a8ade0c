package lookstep.simulator.model.picture;

import lookstep.simulator.model.space.Vec3;

/**
 * What a ray from the camera meets.
 *
 * @param distance along the ray, metres
 * @param point on the set
 * @param part what it is
 * @param owner figure or lamp; -1 for neither
 */
record Hit(double distance, Vec3 point, Part part, int owner) {}
