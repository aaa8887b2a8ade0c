package lookstep.server.plan.file;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lookstep.simulator.model.colour.Chromaticity;
import lookstep.simulator.model.colour.ColourTemperature;
import lookstep.simulator.model.colour.Spectrum;
import lookstep.simulator.model.colour.Xyz;

/** The colour of an emitter, in one of three ways. */
final class EmitterColour {
    private static final List<String> WAYS = List.of("xy", "kelvin", "spectrum");
    private static final int MOST_POINTS = 1000;
    private static final String SPECTRUM_EXAMPLE = "[[430, 0.1], [450, 1], [470, 0.1]]";
    private static final Quantity CHROMATICITY =
            new Quantity("a chromaticity", "", 0.001, 0.9, 0.3);
    private static final Quantity DUV = new Quantity("Duv", "", -0.05, 0.05, 0.002);
    private static final Quantity NANOMETRES = new Quantity("nanometres", " nm", 300, 1100, 450);
    private static final Quantity POWER = new Quantity("power", "", 0, 1_000_000, 1);

    private static final Chromaticity STAND_IN = Chromaticity.D65;

    private EmitterColour() {}

    static Chromaticity read(Fields f, Problems problems) {
        List<String> found = WAYS.stream().filter(f::has).toList();
        if (found.isEmpty()) {
            problems.error(
                    f.at(),
                    f.path("xy") + " is missing: the emitter has no colour",
                    "write xy: [0.69, 0.31], kelvin: 2700, or spectrum: " + SPECTRUM_EXAMPLE);
            return STAND_IN;
        }
        if (found.size() > 1) {
            problems.error(
                    f.keyAt(found.get(1)),
                    f.path(found.get(1)) + " and " + found.get(0) + " say the same twice",
                    "keep one of the two");
        }
        if (f.has("duv") && !f.has("kelvin")) {
            problems.error(
                    f.keyAt("duv"),
                    f.path("duv") + " needs a colour temperature to be off from",
                    "write kelvin beside it, or delete it");
        }
        return switch (found.get(0)) {
            case "xy" -> f.optional("xy", "[0.69, 0.31]", EmitterColour::xy, STAND_IN);
            case "kelvin" -> kelvin(f, problems);
            default -> f.optional("spectrum", SPECTRUM_EXAMPLE, EmitterColour::spectrum, STAND_IN);
        };
    }

    private static Chromaticity kelvin(Fields f, Problems problems) {
        double kelvin = f.number("kelvin", Quantity.KELVIN);
        Chromaticity c = new ColourTemperature(kelvin, f.number("duv", DUV, 0)).chromaticity();
        // the locus of warm whites is close to the edge of all colours
        if (c.x() + c.y() > 1) {
            problems.error(
                    f.keyAt("duv"),
                    f.path("duv")
                            + ": there is no colour so far off the locus at "
                            + Words.number(kelvin)
                            + " K",
                    "write a Duv nearer to 0");
            return STAND_IN;
        }
        return c;
    }

    private static Optional<Chromaticity> xy(Value value) {
        Optional<double[]> n = value.numbers(2, CHROMATICITY, "[0.69, 0.31]");
        if (n.isPresent() && n.get()[0] + n.get()[1] > 1) {
            value.problems()
                    .error(
                            value.at(),
                            value.path() + " is no colour: x and y are more than 1 together",
                            "write the CIE 1931 chromaticity, for example [0.69, 0.31]");
            return Optional.empty();
        }
        return n.map(a -> new Chromaticity(a[0], a[1]));
    }

    private static Optional<Chromaticity> spectrum(Value value) {
        Optional<List<Value>> items = value.list(MOST_POINTS, SPECTRUM_EXAMPLE);
        if (items.isEmpty()) {
            return Optional.empty();
        }
        List<Spectrum.Point> points = new ArrayList<>();
        for (Value item : items.get()) {
            Optional<Spectrum.Point> point = point(item);
            if (point.isEmpty()) {
                return Optional.empty();
            }
            double nm = point.get().nanometres();
            if (!points.isEmpty() && nm <= points.get(points.size() - 1).nanometres()) {
                item.problems()
                        .error(
                                item.at(),
                                item.path()
                                        + " is at "
                                        + Words.number(nm)
                                        + " nm, not after the"
                                        + " one before",
                                "write [nanometres, power] with nanometres that rise");
                return Optional.empty();
            }
            points.add(point.get());
        }
        Xyz xyz = new Spectrum(points).xyz();
        if (points.size() < 2 || !(xyz.y() > 0)) {
            return value.wrong(
                    "write [nanometres, power] pairs that hold visible light, for example "
                            + SPECTRUM_EXAMPLE);
        }
        Chromaticity c = xyz.chromaticity();
        // of pure deep red, x and y may be rounded to a hair more than 1 together
        return Optional.of(new Chromaticity(c.x(), Math.min(c.y(), 1 - c.x())));
    }

    private static Optional<Spectrum.Point> point(Value item) {
        if (!(item.node() instanceof Node.Sequence s) || s.items().size() != 2) {
            return item.wrong("write nanometres and power, for example [450, 1]");
        }
        List<Value> pair = item.list(2, "[450, 1]").orElse(List.of());
        Optional<Double> nm = pair.get(0).number(NANOMETRES);
        Optional<Double> power = pair.get(1).number(POWER);
        return nm.isPresent() && power.isPresent()
                ? Optional.of(new Spectrum.Point(nm.get(), power.get()))
                : Optional.empty();
    }
}
