package lookstep.simulator.model.scene;

import lookstep.simulator.model.space.Vec3;

/**
 * One person as they stand.
 *
 * @param feet the point on the floor between the feet, metres
 * @param turnDegrees 0 faces the camera's side of the room; positive turns to the right of the
 *     picture, 180 shows the back
 * @param heightMetres standing height, 0.5 to 2.5
 * @param skin face, neck and hands
 * @param hair hair and beard
 * @param top clothes above the waist
 * @param bottom clothes below the waist
 * @param seed varies hair, sleeves, arms and stance; the same seed always looks the same
 */
public record Figure(
        Vec3 feet,
        double turnDegrees,
        double heightMetres,
        Reflectance skin,
        Reflectance hair,
        Reflectance top,
        Reflectance bottom,
        long seed) {
    public Figure {
        if (!(heightMetres >= 0.5 && heightMetres <= 2.5)) {
            throw new IllegalArgumentException(
                    "a person of " + heightMetres + " m: choose 0.5 to 2.5 m");
        }
    }

    /** The same person, standing elsewhere. */
    public Figure at(Vec3 elsewhere) {
        return new Figure(elsewhere, turnDegrees, heightMetres, skin, hair, top, bottom, seed);
    }

    /**
     * How high the eyes are, metres above the floor (0.936 of the height; from memory,
     * anthropometric tables give about 0.93 to 0.94).
     */
    public double eyeMetres() {
        return feet.z() + 0.936 * heightMetres;
    }

    /** The point between the eyes, straight above the feet; light is metered there. */
    public Vec3 face() {
        return new Vec3(feet.x(), feet.y(), eyeMetres());
    }

    /**
     * The eyes, where a camera focuses: before the axis of the body by 0.043 of the height, the way
     * the figure looks.
     */
    public Vec3 eyes() {
        double turn = Math.toRadians(turnDegrees);
        double out = 0.043 * heightMetres;
        return face().plus(new Vec3(Math.sin(turn) * out, -Math.cos(turn) * out, 0));
    }
}
