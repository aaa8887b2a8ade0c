package lookstep.protocols.gdtf;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import lookstep.protocols.gdtf.DmxProfile.Point;
import lookstep.protocols.gdtf.EmitterDescription.Measurement;
import lookstep.protocols.gdtf.EmitterDescription.MeasurementPoint;

/** The tree of description.xml to a fixture type (GDTF 1.2, tables 2 to 26). */
final class FixtureTypeReader {
    private final Notes notes;

    private FixtureTypeReader(Notes notes) {
        this.notes = notes;
    }

    static FixtureType read(Element root, Notes notes) throws Unreadable {
        if (!root.name().equals("GDTF")) {
            throw new Unreadable(
                    root.line(),
                    root.column(),
                    "description.xml begins with <%s>, not with <GDTF>"
                            .formatted(Shown.of(root.name())),
                    "give a .gdtf file; this is another kind of zip");
        }
        List<Element> types = root.children("FixtureType");
        if (types.isEmpty()) {
            throw new Unreadable(
                    root.line(),
                    root.column(),
                    "description.xml has no FixtureType",
                    "fetch or export the file again");
        }
        if (types.size() > 1) {
            notes.add(types.get(1), "a second FixtureType is not read");
        }
        return new FixtureTypeReader(notes).type(root, types.get(0));
    }

    private FixtureType type(Element root, Element element) {
        String version = new Fields(root, notes).text("DataVersion", "");
        if (!version.startsWith("1.")) {
            notes.add(root, "DataVersion '%s' is none of 1.x; read as 1.2".formatted(version));
        }
        for (String needed : List.of("AttributeDefinitions", "Geometries", "DMXModes")) {
            if (element.child(needed).isEmpty()) {
                notes.add(element, "there are no " + needed);
            }
        }
        Fields f = new Fields(element, notes);
        Optional<Element> physical = element.child("PhysicalDescriptions");
        return new FixtureType(
                version,
                f.text("Name", ""),
                f.text("ShortName", ""),
                f.text("LongName", ""),
                f.text("Manufacturer", ""),
                f.text("Description", ""),
                f.text("FixtureTypeID", ""),
                element
                        .child("AttributeDefinitions")
                        .map(e -> e.children("Attributes", "Attribute"))
                        .orElse(List.of())
                        .stream()
                        .map(this::attribute)
                        .toList(),
                some(physical, "Emitters", "Emitter", Limits.EMITTERS).stream()
                        .map(this::emitter)
                        .toList(),
                physical
                        .map(e -> e.children("DMXProfiles", "DMXProfile"))
                        .orElse(List.of())
                        .stream()
                        .map(this::profile)
                        .toList(),
                notes
                        .first(
                                element.child("Geometries")
                                        .map(Element::children)
                                        .orElse(List.of()),
                                Limits.TOP_GEOMETRIES)
                        .stream()
                        .map(e -> new GeometryReader(notes).geometry(e))
                        .toList(),
                some(Optional.of(element), "DMXModes", "DMXMode", Limits.MODES).stream()
                        .flatMap(e -> new ModeReader(notes).mode(e).stream())
                        .toList());
    }

    private List<Element> some(Optional<Element> in, String outer, String inner, int most) {
        return notes.first(in.map(e -> e.children(outer, inner)).orElse(List.of()), most);
    }

    private AttributeDefinition attribute(Element element) {
        Fields f = new Fields(element, notes);
        return new AttributeDefinition(
                f.text("Name", ""),
                f.text("Pretty", ""),
                f.text("Feature", ""),
                f.node("MainAttribute"),
                f.text("PhysicalUnit", "None"));
    }

    private EmitterDescription emitter(Element element) {
        Fields f = new Fields(element, notes);
        Given wave = f.given("DominantWaveLength", 0);
        return new EmitterDescription(
                f.text("Name", ""),
                f.color("Color"),
                wave.value() > 0 ? Optional.of(wave.value()) : Optional.empty(),
                f.text("DiodePart", ""),
                element.children("Measurement").stream().map(this::measurement).toList());
    }

    private Measurement measurement(Element element) {
        Fields f = new Fields(element, notes);
        List<MeasurementPoint> points = new ArrayList<>();
        for (Element point : element.children("MeasurementPoint")) {
            Fields p = new Fields(point, notes);
            Given wave = p.given("WaveLength", 0);
            Given energy = p.given("Energy", 0);
            if (wave.inFile() && energy.inFile() && wave.value() > 0 && energy.value() >= 0) {
                points.add(new MeasurementPoint(wave.value(), energy.value()));
            } else {
                notes.add(point, "a MeasurementPoint without light or place is not read");
            }
        }
        points.sort(Comparator.comparingDouble(MeasurementPoint::waveLength));
        return new Measurement(
                f.given("Physical", 100, 0, 100).value(),
                f.given("LuminousIntensity", 0, 0, Limits.NUMBER).value(),
                f.text("InterpolationTo", "Linear"),
                points);
    }

    private DmxProfile profile(Element element) {
        List<Point> points = new ArrayList<>();
        for (Element point : element.children("Point")) {
            Fields p = new Fields(point, notes);
            points.add(
                    new Point(
                            p.number("DMXPercentage", 0),
                            p.number("CFC0", 0),
                            p.number("CFC1", 0),
                            p.number("CFC2", 0),
                            p.number("CFC3", 0)));
        }
        points.sort(Comparator.comparingDouble(Point::dmxPercentage));
        return new DmxProfile(new Fields(element, notes).text("Name", ""), points);
    }
}
