package lookstep.simulator.gear;

import java.util.List;
import lookstep.simulator.model.colour.Xyz;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.scene.Scene;

/**
 * What is before the camera, and what the camera is set to.
 *
 * @param scene people, room and lamps
 * @param lightNames whose lamps the scene's are, in the scene's order, as the lights are patched
 * @param houseWhite colour of the house light; Y 1 is the scene's house light, 0 is dark
 * @param camera where it stands, exposure and white balance as its dials show them; the picture
 *     takes the exact values behind them
 */
public record View(Scene scene, List<String> lightNames, Xyz houseWhite, Camera camera) {
    public View {
        lightNames = List.copyOf(lightNames);
        if (lightNames.size() != scene.luminaires().size()) {
            throw new IllegalArgumentException(
                    "%d names for %d lamps"
                            .formatted(lightNames.size(), scene.luminaires().size()));
        }
    }

    /** Lens to the nearest face, where the focus is left; to the target if nobody is there. */
    public double focusMetres() {
        return scene.figures().stream()
                .mapToDouble(f -> f.face().minus(camera.position()).length())
                .min()
                .orElseGet(() -> camera.target().minus(camera.position()).length());
    }
}
