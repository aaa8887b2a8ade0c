package lookstep.server.plan.file;

import java.util.List;
import java.util.Optional;
import lookstep.server.plan.House;
import lookstep.server.plan.Place;

/** The place and the light that is there already. */
final class PlaceReader {
    static final String EXAMPLE =
            "{name: the Brine Loft, width: 8, depth: 9, height: 3.4, background: {distance: 2.5,"
                    + " surface: black cloth}}";

    static final List<String> PLACE_KEYS =
            List.of("name", "width", "depth", "height", "background", "floor", "walls");
    private static final List<String> BACKGROUND_KEYS =
            List.of("distance", "surface", "reflectance");
    private static final List<String> HOUSE_KEYS = List.of("lux", "kelvin");
    private static final String BACKGROUND_EXAMPLE = "{distance: 2.5, surface: black cloth}";
    private static final double FLOOR = 0.2;
    private static final double WALLS = 0.5;

    private PlaceReader() {}

    static Place place(Fields f, Names names, Problems problems) {
        String name = names.take(f, "name", "the Brine Loft");
        double width = f.number("width", Quantity.metres(1, 100, 8));
        double depth = f.number("depth", Quantity.metres(1, 100, 9));
        double height = f.number("height", Quantity.metres(2, 50, 3.4));
        Optional<Fields> background =
                f.need("background", BACKGROUND_EXAMPLE)
                        .flatMap(v -> v.fields(BACKGROUND_KEYS, BACKGROUND_EXAMPLE));
        double distance =
                background
                        .map(b -> b.number("distance", Quantity.metres(0.2, 60, 2.5)))
                        .orElse(2.5);
        double reflectance = background.map(b -> reflectance(b, problems)).orElse(0.03);
        return new Place(
                name,
                width,
                depth,
                height,
                distance,
                reflectance,
                f.optional("floor", "wood", SurfaceWords.ROOM::readGrey, FLOOR),
                f.optional("walls", "grey paint", SurfaceWords.ROOM::readGrey, WALLS));
    }

    private static double reflectance(Fields b, Problems problems) {
        if (b.has("surface") && b.has("reflectance")) {
            problems.error(
                    b.keyAt("reflectance"),
                    b.path("reflectance") + " and surface say the same twice",
                    "keep one of the two");
        }
        if (b.has("reflectance")) {
            return b.number("reflectance", new Quantity("a share", "", 0, 1, 0.03));
        }
        return b.need("surface", "black cloth").flatMap(SurfaceWords.ROOM::readGrey).orElse(0.03);
    }

    static House dark() {
        return new House(0, 3000);
    }

    static Optional<House> house(Value value) {
        return value.fields(HOUSE_KEYS, "{lux: 5, kelvin: 2700}")
                .map(
                        f ->
                                new House(
                                        f.number("lux", new Quantity("lux", " lx", 0, 100_000, 5)),
                                        f.number("kelvin", Quantity.KELVIN, 3000)));
    }
}
