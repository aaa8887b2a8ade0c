package lookstep.server.paper;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import lookstep.server.paper.Table.Column;
import lookstep.server.plan.Circuit;
import lookstep.server.plan.Light;
import lookstep.server.plan.Location;
import lookstep.server.plan.PlanWords;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.simulator.model.space.Vec3;

/** What stands where, and what it is plugged into: each place for itself. */
final class RigPart {
    /** Common practice: what a circuit carries for hours. */
    private static final double SHARE = 0.8;

    private RigPart() {}

    static void draw(Pages pages, Sheet sheet) {
        for (Location location : sheet.plan().locations()) {
            if (location.rig().isEmpty()) {
                continue;
            }
            RigPlot plot = new RigPlot(location, first(sheet, location));
            double high = plot.high(pages.width(), pages.pageHeight() * 0.55);
            pages.heading("Rig: " + location.name(), high + 60);
            pages.paragraph(
                    Face.PLAIN,
                    8.5,
                    0,
                    "From above, to scale, the background at the top. Metres: x to the right as the"
                            + " camera sees it, y away from the camera, z up, from the floor under"
                            + " the middle of the nearest row.");
            pages.down(4);
            plot.draw(pages, high);
            lights(pages, location);
            mains(pages, location);
        }
    }

    /** The first shot that can be made there, for its camera. */
    private static Optional<Shot> first(Sheet sheet, Location location) {
        ShootPlan there = at(sheet.plan(), location);
        return sheet.order().stream().flatMap(id -> there.shot(id).stream()).findFirst();
    }

    /** The plan at one of its places; also a place that is alone may have its lights elsewhere. */
    static ShootPlan at(ShootPlan plan, Location location) {
        return plan.at(location.name());
    }

    private static void lights(Pages pages, Location location) {
        Table table =
                new Table(
                        pages,
                        Column.bold("", 0.6),
                        Column.bold("light", 2.25),
                        Column.of("fixture, mode", 2.7),
                        Column.of("universe, slots", 1.85),
                        Column.bold("start address", 1.6),
                        Column.of("at", 2.65),
                        Column.of("aims at", 2.65),
                        Column.of("modifier", 1.9),
                        Column.of("circuit", 1.6),
                        Column.of("watts", 1.1));
        int number = 1;
        for (Light light : location.rig()) {
            int last = light.startSlot() + light.mode().slots() - 1;
            table.row(
                    String.valueOf(number++),
                    light.name(),
                    light.fixture().id() + ", " + light.mode().id(),
                    light.universe()
                            + ", "
                            + (light.mode().slots() == 1
                                    ? light.startSlot()
                                    : light.startSlot() + "-" + last),
                    light.universe() + "/" + light.startSlot(),
                    point(light.position()),
                    point(light.aim()),
                    light.modifier().name(),
                    circuit(location, light),
                    n(light.fixture().watts()));
        }
        table.end();
    }

    private static String circuit(Location location, Light light) {
        String names =
                location.circuits().stream()
                        .filter(c -> c.lights().contains(light.name()))
                        .map(Circuit::name)
                        .collect(Collectors.joining(", "));
        return names.isEmpty() ? "–" : names;
    }

    private static void mains(Pages pages, Location location) {
        List<Circuit> circuits = location.circuits();
        pages.subheading("Mains: " + location.name(), 40);
        double all = location.rig().stream().mapToDouble(l -> l.fixture().watts()).sum();
        if (circuits.isEmpty()) {
            pages.paragraph(
                    Face.PLAIN,
                    9.5,
                    0,
                    "All lights at most: "
                            + n(Math.rint(all))
                            + " W. The plan says nothing of the circuits: ask which there are, and"
                            + " keep a fifth of each free (common practice; local code prevails).");
            return;
        }
        Table table =
                new Table(
                        pages,
                        Column.bold("circuit", 2),
                        Column.of("breaker", 1.8),
                        Column.of("80 % of it", 1.5),
                        Column.of("on it", 4.5),
                        Column.bold("comes to", 1.5),
                        Column.bold("", 2));
        for (Circuit c : circuits) {
            double watts = c.otherWatts();
            for (Light light : location.rig()) {
                watts += c.lights().contains(light.name()) ? light.fixture().watts() : 0;
            }
            double limit = SHARE * c.amps() * c.volts();
            String others = c.otherWatts() > 0 ? n(c.otherWatts()) + " W of others" : "";
            String lights = String.join(", ", c.lights());
            table.row(
                    c.name(),
                    n(c.amps()) + " A, " + n(c.volts()) + " V",
                    n(Math.rint(limit)) + " W",
                    lights + (lights.isEmpty() || others.isEmpty() ? "" : ", ") + others,
                    n(Math.rint(watts)) + " W",
                    watts > limit ? "TOO MUCH" : "good");
        }
        table.end();
        String loose =
                location.rig().stream()
                        .map(Light::name)
                        .filter(l -> circuits.stream().noneMatch(c -> c.lights().contains(l)))
                        .collect(Collectors.joining(", "));
        pages.paragraph(
                Face.PLAIN,
                8.5,
                0,
                "80 %: common practice; local code prevails. Watts are the fixtures' most."
                        + (loose.isEmpty() ? "" : " On no circuit of the plan: " + loose + "."));
    }

    private static String point(Vec3 p) {
        return n(p.x()) + ", " + n(p.y()) + ", " + n(p.z());
    }

    private static String n(double value) {
        return PlanWords.number(value);
    }
}
