package lookstep.server.look;

import lookstep.server.plan.Look.Colour;
import lookstep.simulator.model.colour.Chromaticity;
import lookstep.simulator.model.colour.ColourTemperature;
import lookstep.simulator.model.colour.HueSaturation;
import lookstep.simulator.model.colour.WhiteBalance;

/** What a plan asks of a light's colour, as a chromaticity. */
final class WantedColour {
    private WantedColour() {}

    /**
     * The chromaticity.
     *
     * @param camera as the look sets it: hue and saturation are those of its picture
     */
    static Chromaticity of(Colour colour, WhiteBalance camera) {
        if (colour instanceof Colour.Temperature t) {
            return new ColourTemperature(t.kelvin(), t.duv()).chromaticity();
        } else if (colour instanceof Colour.HueSaturation hs) {
            return camera.light(new HueSaturation(hs.hueDegrees(), hs.saturation())).chromaticity();
        }
        Colour.Xy xy = (Colour.Xy) colour;
        return new Chromaticity(xy.x(), xy.y());
    }
}
