package lookstep.protocols.gdtf;

import java.util.List;

/**
 * DMXProfile (tables 23 and 24): a curve made of cubics.
 *
 * @param points by rising percentage
 */
public record DmxProfile(String name, List<Point> points) {
    public DmxProfile {
        points = List.copyOf(points);
    }

    /**
     * Point: from here on the curve is cfc3 t³ + cfc2 t² + cfc1 t + cfc0, t counted from here.
     *
     * @param dmxPercentage where it begins
     */
    public record Point(double dmxPercentage, double cfc0, double cfc1, double cfc2, double cfc3) {}

    /** The curve at a DMX percentage; 0 before its first point. */
    public double at(double dmxPercentage) {
        double value = 0;
        for (Point point : points) {
            if (point.dmxPercentage() <= dmxPercentage) {
                double t = dmxPercentage - point.dmxPercentage();
                value = ((point.cfc3() * t + point.cfc2()) * t + point.cfc1()) * t + point.cfc0();
            }
        }
        return value;
    }
}
