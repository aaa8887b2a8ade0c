package lookstep.simulator.model.scene;

/**
 * A box with its floor at 0 and its left and right walls at equal distance from x = 0.
 *
 * @param widthMetres left to right
 * @param depthMetres from the wall behind the camera to the background
 * @param heightMetres floor to ceiling
 * @param backgroundMetres where the background is, y
 * @param background the far wall or the cloth in front of it
 * @param floor the floor
 * @param walls side walls, the wall behind the camera, and the ceiling
 */
public record Room(
        double widthMetres,
        double depthMetres,
        double heightMetres,
        double backgroundMetres,
        Reflectance background,
        Reflectance floor,
        Reflectance walls) {
    public Room {
        if (!(widthMetres > 0 && depthMetres > 0 && heightMetres > 0)) {
            throw new IllegalArgumentException(
                    "a room needs width, depth and height above 0 metres");
        }
    }

    /** All six surfaces together. */
    public double areaSquareMetres() {
        return 2 * (widthMetres * depthMetres + (widthMetres + depthMetres) * heightMetres);
    }

    /** Mean luminous reflectance of the six surfaces, weighted by area. */
    public double meanReflectance() {
        double end = widthMetres * heightMetres;
        double flat = widthMetres * depthMetres;
        double others = areaSquareMetres() - end - flat;
        return (end * background.luminous() + flat * floor.luminous() + others * walls.luminous())
                / areaSquareMetres();
    }
}
