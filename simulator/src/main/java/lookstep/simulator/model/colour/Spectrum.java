package lookstep.simulator.model.colour;

import java.util.List;

/**
 * A spectrum as it is given: straight between its points, nothing beside them.
 *
 * @param points with wavelengths that rise
 */
public record Spectrum(List<Point> points) {
    /**
     * One of them.
     *
     * @param nanometres wavelength
     * @param power in any unit, 0 or more
     */
    public record Point(double nanometres, double power) {}

    public Spectrum {
        points = List.copyOf(points);
    }

    /** Power at a wavelength, in the unit of the points. */
    public double at(double nanometres) {
        for (int i = 1; i < points.size(); i++) {
            Point from = points.get(i - 1);
            Point to = points.get(i);
            double width = to.nanometres() - from.nanometres();
            if (nanometres >= from.nanometres() && nanometres <= to.nanometres() && width > 0) {
                double part = (nanometres - from.nanometres()) / width;
                return from.power() + part * (to.power() - from.power());
            }
        }
        return 0;
    }

    /** What the CIE 1931 2-degree observer sees; Y is in the unit of the points. */
    public Xyz xyz() {
        return Cie1931.of(this::at);
    }
}
