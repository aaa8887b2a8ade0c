package lookstep.protocols.gdtf;

import java.util.List;
import java.util.Optional;

/**
 * Geometry of any type (tables 34 to 55).
 *
 * @param type the element's name: "Geometry", "Axis", "Beam", "GeometryReference" ...
 * @param beam what only a Beam has
 * @param reference what only a GeometryReference has
 */
public record Geometry(
        String name,
        String type,
        Optional<Beam> beam,
        Optional<Reference> reference,
        List<Geometry> children) {
    public Geometry {
        children = List.copyOf(children);
    }

    /**
     * Beam (table 41).
     *
     * @param lampType "Discharge", "Tungsten", "Halogen" or "LED"
     * @param powerConsumption watts
     * @param luminousFlux lumens
     * @param colorTemperature kelvin
     * @param beamAngle degrees
     * @param fieldAngle degrees
     * @param beamRadius metres
     * @param colorRenderingIndex 0..100
     * @param beamType "Wash", "Spot", "None", "Rectangle", "PC", "Fresnel" or "Glow"
     * @param emitterSpectrum name of the emitter that gives the spectrum; empty for a black body
     */
    public record Beam(
            String lampType,
            Given powerConsumption,
            Given luminousFlux,
            Given colorTemperature,
            Given beamAngle,
            Given fieldAngle,
            Given beamRadius,
            Given colorRenderingIndex,
            String beamType,
            String emitterSpectrum) {}

    /**
     * GeometryReference (table 48): a top-level geometry, once more.
     *
     * @param geometry name of the top-level geometry
     * @param breaks where its channels lie; may be empty
     */
    public record Reference(String geometry, List<Break> breaks) {
        public Reference {
            breaks = List.copyOf(breaks);
        }
    }

    /**
     * Break (table 49).
     *
     * @param dmxOffset 1 is no shift
     * @param dmxBreak from 1
     */
    public record Break(int dmxOffset, int dmxBreak) {}
}
