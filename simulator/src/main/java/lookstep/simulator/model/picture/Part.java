package lookstep.simulator.model.picture;

/** What a pixel shows. */
public enum Part {
    /** Nothing: the camera looks out of the room. */
    NOTHING,
    /** Face, neck, ears, hands. */
    SKIN,
    /** Hair and beard. */
    HAIR,
    /** Clothes above the waist. */
    TOP,
    /** Clothes below the waist. */
    BOTTOM,
    /** Shoes. */
    SHOES,
    /** Eyes, brows, lips, and the shirt under an open jacket: not of the reflectances given. */
    FEATURE,
    /** The floor. */
    FLOOR,
    /** The far wall or cloth. */
    BACKGROUND,
    /** Side walls, ceiling, the wall behind the camera. */
    WALL,
    /** A lamp that stands in the picture. */
    LAMP;

    /** True for what belongs to a person. */
    public boolean ofFigure() {
        return switch (this) {
            case SKIN, HAIR, TOP, BOTTOM, SHOES, FEATURE -> true;
            case NOTHING, FLOOR, BACKGROUND, WALL, LAMP -> false;
        };
    }
}
