package lookstep.simulator.model.scene;

import java.util.List;
import lookstep.simulator.model.light.Luminaire;

/**
 * All that light can fall on or come from.
 *
 * @param figures the people
 * @param room around them
 * @param luminaires the lamps as placed
 * @param houseLux illuminance of the light that is there already on an upright surface at the
 *     people that faces the camera, 0 or more
 */
public record Scene(List<Figure> figures, Room room, List<Luminaire> luminaires, double houseLux) {
    public Scene {
        figures = List.copyOf(figures);
        luminaires = List.copyOf(luminaires);
        if (!(houseLux >= 0)) {
            throw new IllegalArgumentException("house light of " + houseLux + " lux");
        }
    }
}
