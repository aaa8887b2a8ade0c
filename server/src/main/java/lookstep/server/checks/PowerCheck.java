package lookstep.server.checks;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import lookstep.server.plan.Circuit;
import lookstep.server.plan.Light;
import lookstep.server.plan.Location;
import lookstep.server.plan.PlanWords;
import lookstep.server.plan.ShootPlan;

/**
 * What hangs on each circuit, every light at its most, against four fifths of what its breaker
 * holds (common practice; the local code prevails).
 */
final class PowerCheck {
    static final double USABLE = 0.8;

    private PowerCheck() {}

    static List<Finding> of(ShootPlan plan) {
        Location here = plan.location();
        List<Finding> all = new ArrayList<>();
        for (Circuit c : here.circuits()) {
            all.add(circuit(plan, here, c));
        }
        if (here.circuits().isEmpty()) {
            double watts = plan.rig().stream().mapToDouble(l -> l.fixture().watts()).sum();
            all.add(
                    new Finding(
                            Kind.POWER,
                            Weight.GOOD,
                            Subject.PLAN,
                            Words.text(
                                    "all lights together draw %.0f W at most: %.1f A at 230 V, %.1f"
                                            + " A at 120 V; the plan has no circuits to check that"
                                            + " against",
                                    watts, watts / 230, watts / 120),
                            new Numbers()
                                    .put("watts", watts)
                                    .put("ampsAt230Volts", watts / 230)
                                    .put("ampsAt120Volts", watts / 120)
                                    .all(),
                            Optional.empty()));
            return all;
        }
        Set<String> plugged = new HashSet<>();
        here.circuits().forEach(c -> plugged.addAll(c.lights()));
        List<String> none =
                plan.rig().stream().map(Light::name).filter(n -> !plugged.contains(n)).toList();
        if (!none.isEmpty()) {
            all.add(
                    new Finding(
                            Kind.POWER,
                            Weight.LOOK,
                            Subject.light(none.get(0)),
                            Words.quoted(none)
                                    + (none.size() == 1 ? " is" : " are")
                                    + " on no circuit of the plan",
                            new Numbers()
                                    .put("watts", watts(plan, none))
                                    .put("lights", String.join(", ", none))
                                    .all(),
                            roomiest(plan, here, none)
                                    .map(c -> plug(plan, c, none))
                                    .or(() -> Optional.of(Mend.words("find one more circuit")))));
        }
        return all;
    }

    private static Finding circuit(ShootPlan plan, Location here, Circuit c) {
        double holds = c.amps() * c.volts();
        double draws = watts(plan, c.lights()) + c.otherWatts();
        Numbers numbers =
                new Numbers()
                        .put("watts", draws)
                        .put("amps", draws / c.volts())
                        .put("breakerAmps", c.amps())
                        .put("breakerWatts", holds)
                        .put("usableWatts", USABLE * holds)
                        .put("share", draws / holds);
        String says =
                Words.text(
                        "circuit ‘%s’: %.0f W, %.1f A of %s A at %s V, %s",
                        c.name(),
                        draws,
                        draws / c.volts(),
                        PlanWords.number(c.amps()),
                        PlanWords.number(c.volts()),
                        Words.percent(draws / holds));
        if (draws <= USABLE * holds) {
            return new Finding(
                    Kind.POWER, Weight.GOOD, Subject.PLAN, says, numbers.all(), Optional.empty());
        }
        return new Finding(
                Kind.POWER,
                draws > holds ? Weight.WRONG : Weight.LOOK,
                Subject.PLAN,
                says
                        + (draws > holds
                                ? ": the breaker will go"
                                : ": over four fifths (common practice; the local code prevails)"),
                numbers.all(),
                Optional.of(relief(plan, here, c, draws - USABLE * holds)));
    }

    /** The smallest light that is enough goes to the circuit with the most room. */
    private static Mend relief(ShootPlan plan, Location here, Circuit full, double tooMuch) {
        Optional<Light> small =
                full.lights().stream()
                        .map(plan::light)
                        .filter(l -> l.fixture().watts() >= tooMuch)
                        .min((a, b) -> Double.compare(a.fixture().watts(), b.fixture().watts()));
        Optional<Circuit> to =
                small.flatMap(
                        l ->
                                here.circuits().stream()
                                        .filter(c -> !c.equals(full))
                                        .filter(c -> room(plan, c) >= l.fixture().watts())
                                        .max(
                                                (a, b) ->
                                                        Double.compare(
                                                                room(plan, a), room(plan, b))));
        if (to.isEmpty()) {
            return Mend.words(
                    Words.text(
                            "%.0f W must go: find another circuit with those who run the place",
                            tooMuch));
        }
        List<String> left =
                full.lights().stream().filter(n -> !n.equals(small.get().name())).toList();
        Mend plug = plug(plan, to.get(), List.of(small.get().name()));
        List<Change> changes = new ArrayList<>(plug.changes());
        changes.add(0, new Change(path(plan, full), left));
        return new Mend(plug.says(), changes);
    }

    private static Optional<Circuit> roomiest(ShootPlan plan, Location here, List<String> lights) {
        return here.circuits().stream()
                .filter(c -> room(plan, c) >= watts(plan, lights))
                .max((a, b) -> Double.compare(room(plan, a), room(plan, b)));
    }

    private static Mend plug(ShootPlan plan, Circuit to, List<String> lights) {
        List<String> all = new ArrayList<>(to.lights());
        all.addAll(lights);
        return new Mend(
                "plug " + Words.quoted(lights) + " into circuit ‘" + to.name() + "’",
                List.of(new Change(path(plan, to), all)));
    }

    private static List<Object> path(ShootPlan plan, Circuit c) {
        List<Object> path = new ArrayList<>(Paths.place(plan));
        path.addAll(List.of("circuits", Map.of("name", c.name()), "lights"));
        return path;
    }

    private static double room(ShootPlan plan, Circuit c) {
        return USABLE * c.amps() * c.volts() - watts(plan, c.lights()) - c.otherWatts();
    }

    private static double watts(ShootPlan plan, List<String> lights) {
        return lights.stream().mapToDouble(n -> plan.light(n).fixture().watts()).sum();
    }
}
