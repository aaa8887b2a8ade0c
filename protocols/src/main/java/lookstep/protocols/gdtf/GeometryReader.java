package lookstep.protocols.gdtf;

import java.util.List;
import java.util.Optional;
import lookstep.protocols.gdtf.Geometry.Beam;
import lookstep.protocols.gdtf.Geometry.Break;
import lookstep.protocols.gdtf.Geometry.Reference;

/** Geometries (GDTF 1.2, tables 34 to 55). */
final class GeometryReader {
    private static final int MOST_BREAK = 65_535;

    private final Notes notes;

    GeometryReader(Notes notes) {
        this.notes = notes;
    }

    /** As deep as the tree, which is bounded. */
    Geometry geometry(Element element) {
        Fields f = new Fields(element, notes);
        boolean reference = element.name().equals("GeometryReference");
        return new Geometry(
                f.text("Name", ""),
                Shown.of(element.name()),
                element.name().equals("Beam") ? Optional.of(beam(f)) : Optional.empty(),
                reference ? Optional.of(reference(element, f)) : Optional.empty(),
                // whatever has a name is a geometry, also types that came after 1.2
                element.children().stream()
                        .filter(e -> !reference && e.attributes().containsKey("Name"))
                        .map(this::geometry)
                        .toList());
    }

    /** Defaults are those of table 41. */
    private static Beam beam(Fields f) {
        double most = Limits.NUMBER;
        return new Beam(
                f.text("LampType", "Discharge"),
                f.given("PowerConsumption", 1000, 0, most),
                f.given("LuminousFlux", 10_000, 0, most),
                f.given("ColorTemperature", 6000, 0, most),
                f.given("BeamAngle", 25, 0, 360),
                f.given("FieldAngle", 25, 0, 360),
                f.given("BeamRadius", 0.05, 0, most),
                f.given("ColorRenderingIndex", 100, 0, 100),
                f.text("BeamType", "Wash"),
                f.node("EmitterSpectrum"));
    }

    private Reference reference(Element element, Fields f) {
        List<Break> breaks =
                element.children("Break").stream()
                        .map(e -> new Fields(e, notes))
                        .map(
                                b ->
                                        new Break(
                                                b.whole("DMXOffset", 1, 1, MOST_BREAK),
                                                b.whole("DMXBreak", 1, 1, MOST_BREAK)))
                        .toList();
        return new Reference(f.node("Geometry"), breaks);
    }
}
