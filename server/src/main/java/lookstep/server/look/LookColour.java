package lookstep.server.look;

import lookstep.server.plan.Look.Colour;
import lookstep.simulator.model.colour.Chromaticity;
import lookstep.simulator.model.colour.Planck;

final class LookColour {
    private LookColour() {}

    static Chromaticity chromaticity(Colour colour, double cameraKelvin) {
        if (colour instanceof Colour.Temperature t) {
            return Planck.chromaticity(t.kelvin());
        }
        Colour.Xy xy = (Colour.Xy) colour;
        return new Chromaticity(xy.x(), xy.y());
    }
}
