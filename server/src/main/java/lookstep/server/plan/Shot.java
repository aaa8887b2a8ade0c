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
 * @param framing the format wanted, in the plan's words: landscape 3:2, portrait 4:5, square,
 *     spread, cover
 * @param say what to say to the people, a line each
 * @param importance 1..10
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
        int importance) {}
