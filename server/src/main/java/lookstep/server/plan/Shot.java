package lookstep.server.plan;

import java.util.List;
import lookstep.simulator.model.scene.Arrangement;

/**
 * One picture to make.
 *
 * @param id unique, stable when the plan is edited; letters, digits and hyphens
 * @param name said aloud and shown on the pages
 * @param safe true for the shot that must exist before any other
 * @param look the look's name
 * @param people names, left to right as the camera sees them
 * @param arrangement how they stand
 * @param lensMillimetres focal length
 * @param distanceMetres camera to the nearest face
 * @param cameraHeightMetres lens above the floor
 * @param framing the format wanted, in the plan's words: landscape 3:2, landscape 16:9, portrait
 *     4:5, square, spread, cover
 * @param say what to say to the people, a line each
 * @param importance 1..10
 * @param use who it is for and how it goes with others
 */
public record Shot(
        String id,
        String name,
        boolean safe,
        String look,
        List<String> people,
        Arrangement arrangement,
        double lensMillimetres,
        double distanceMetres,
        double cameraHeightMetres,
        String framing,
        List<String> say,
        int importance,
        Use use) {
    /** For no client in particular. */
    public Shot(
            String id,
            String name,
            boolean safe,
            String look,
            List<String> people,
            Arrangement arrangement,
            double lensMillimetres,
            double distanceMetres,
            double cameraHeightMetres,
            String framing,
            List<String> say,
            int importance) {
        this(
                id,
                name,
                safe,
                look,
                people,
                arrangement,
                lensMillimetres,
                distanceMetres,
                cameraHeightMetres,
                framing,
                say,
                importance,
                Use.ANY);
    }

    /**
     * Who it is for and how it goes with others.
     *
     * @param job the client; empty for the first of the plan
     * @param together shots of one such name are made one after the other; empty if it stands alone
     * @param round true if a round may be broken off: a solos round is worth having in part
     * @param seconds how long it takes to make; 0 is the usual time
     * @param text the side on which words are to have room: top, bottom, left, right; empty if none
     *     are
     */
    public record Use(String job, String together, boolean round, double seconds, String text) {
        /** Nothing in particular. */
        public static final Use ANY = new Use("", "", false, 0, "");
    }

    /** The same on another look, or of others. */
    public Shot of(String otherLook, List<String> others) {
        return new Shot(
                id,
                name,
                safe,
                otherLook,
                others,
                arrangement,
                lensMillimetres,
                distanceMetres,
                cameraHeightMetres,
                framing,
                say,
                importance,
                use);
    }

    /** Whether it is of one person alone. */
    public boolean solo() {
        return people.size() == 1;
    }
}
