package lookstep.simulator.model.scene;

/**
 * How people stand. Which way an apex points is stored, not a letter: photographers use V for both.
 *
 * @param kind the shape on the floor
 * @param apexNear for {@link Kind#WEDGE}: true if the middle person is nearest to the camera
 * @param spacingMetres shoulder to shoulder
 * @param rowMetres front row to next row, for {@link Kind#ROWS}
 * @param rows people in each row from the front, for {@link Kind#ROWS}; empty otherwise
 */
public record Arrangement(
        Kind kind,
        boolean apexNear,
        double spacingMetres,
        double rowMetres,
        java.util.List<Integer> rows) {
    /**
     * The shapes: a line, a V either way, a zigzag (W), staggered rows, a loose cluster, one person
     * alone.
     */
    public enum Kind {
        LINE,
        WEDGE,
        ZIGZAG,
        ROWS,
        CLUSTER,
        SOLO
    }
}
