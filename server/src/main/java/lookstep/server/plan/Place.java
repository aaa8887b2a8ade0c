package lookstep.server.plan;

/**
 * The room, seen from the camera.
 *
 * @param name what the place is called
 * @param widthMetres left to right
 * @param depthMetres from the wall behind the camera to the background
 * @param heightMetres floor to ceiling
 * @param backgroundMetres how far behind the nearest row of people the background is
 * @param backgroundReflectance 0..1; black cloth 0.02 to 0.05, white wall 0.7 to 0.9 (common
 *     practice)
 * @param floorReflectance 0..1
 * @param wallReflectance 0..1, mean of side walls, back wall and ceiling
 */
public record Place(
        String name,
        double widthMetres,
        double depthMetres,
        double heightMetres,
        double backgroundMetres,
        double backgroundReflectance,
        double floorReflectance,
        double wallReflectance) {}
