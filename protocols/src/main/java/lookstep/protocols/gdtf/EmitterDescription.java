package lookstep.protocols.gdtf;

import java.util.List;
import java.util.Optional;

/**
 * Emitter of the physical descriptions (table 16).
 *
 * @param color missing for what cannot be seen
 * @param dominantWaveLength nanometres, where there is no colour
 * @param diodePart a maker's part, or empty
 */
public record EmitterDescription(
        String name,
        Optional<ColorCie> color,
        Optional<Double> dominantWaveLength,
        String diodePart,
        List<Measurement> measurements) {
    public EmitterDescription {
        measurements = List.copyOf(measurements);
    }

    /**
     * Measurement (table 18).
     *
     * @param physical percent of the DMX value, above 0, at most 100
     * @param luminousIntensity candela; 0 if not said
     * @param interpolationTo "Linear", "Step" or "Log"
     * @param points the spectrum, by rising wavelength; may be empty
     */
    public record Measurement(
            double physical,
            double luminousIntensity,
            String interpolationTo,
            List<MeasurementPoint> points) {
        public Measurement {
            points = List.copyOf(points);
        }
    }

    /**
     * MeasurementPoint (table 19).
     *
     * @param waveLength nanometres
     * @param energy W/m2/nm
     */
    public record MeasurementPoint(double waveLength, double energy) {}
}
