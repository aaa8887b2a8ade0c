package lookstep.server.look;

import lookstep.server.plan.Look.Colour;
import lookstep.simulator.model.colour.Bradford;
import lookstep.simulator.model.colour.Chromaticity;
import lookstep.simulator.model.colour.Mired;
import lookstep.simulator.model.colour.Planck;
import lookstep.simulator.model.colour.WhiteBalance;
import lookstep.simulator.model.colour.Xyz;

/**
 * Colours for a camera that stays where it is. A light that was to look 155 mired colder than the
 * camera's setting is 155 mired colder than another setting too; a colour is carried over by the
 * chromatic adaptation by which the picture is computed (Bradford), so that it looks the same.
 */
final class SteadyCamera {
    static final double WARMEST_KELVIN = Planck.MIN_KELVIN;
    static final double COLDEST_KELVIN = Planck.MAX_KELVIN;

    /** Of the light that is carried over. */
    private static final double LEAST_LIGHT = 0.01;

    private SteadyCamera() {}

    /**
     * The colour for the other setting; the same where there is none.
     *
     * @param planned kelvin the look's camera is set to
     * @param steady kelvin the camera stays at
     */
    static Colour colour(Colour colour, double planned, double steady) {
        if (colour instanceof Colour.HueSaturation) {
            return colour; // is said as the camera sees it
        } else if (colour instanceof Colour.Temperature t) {
            double mired = Mired.of(t.kelvin()) - Mired.of(planned) + Mired.of(steady);
            if (mired >= Mired.of(COLDEST_KELVIN) && mired <= Mired.of(WARMEST_KELVIN)) {
                return new Colour.Temperature(Math.round(Mired.kelvin(mired)), t.duv());
            }
        }
        // Beyond the ends of the locus there is no such temperature, but there is the colour.
        Xyz seen =
                Bradford.adapt(
                        WantedColour.of(colour, new WhiteBalance(planned)).toXyz(1),
                        Planck.chromaticity(planned),
                        Planck.chromaticity(steady));
        if (seen.y() < LEAST_LIGHT) {
            // The deepest violets are nothing to a camera that is set much warmer or colder.
            return colour;
        }
        // Others come out beyond all colours: the nearest that there is.
        Chromaticity to =
                new Xyz(Math.max(0, seen.x()), seen.y(), Math.max(0, seen.z())).chromaticity();
        return new Colour.Xy(to.x(), to.y());
    }
}
