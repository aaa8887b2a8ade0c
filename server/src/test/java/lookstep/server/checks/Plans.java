package lookstep.server.checks;

import java.nio.charset.StandardCharsets;
import java.util.List;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plan.file.DemoShoot;
import lookstep.server.plan.file.PlanReader;
import lookstep.server.plan.file.PlanReading;
import lookstep.simulator.model.scene.Arrangement;

/** The demo's plan, with one thing put differently. */
final class Plans {
    static final ShootPlan DEMO = with();

    private Plans() {}

    /** Pairs of what is there exactly once and what to put instead. */
    static ShootPlan with(String... pairs) {
        String text = DemoShoot.text();
        for (int i = 0; i < pairs.length; i += 2) {
            int at = text.indexOf(pairs[i]);
            if (at < 0) {
                throw new IllegalArgumentException("'" + pairs[i] + "' is not there");
            }
            text = text.substring(0, at) + pairs[i + 1] + text.substring(at + pairs[i].length());
        }
        PlanReading reading =
                new PlanReader(GenericFixtures.all()).read(text.getBytes(StandardCharsets.UTF_8));
        if (reading instanceof PlanReading.Good good) {
            return good.plan();
        }
        throw new AssertionError(reading.toString());
    }

    static Shot shot(ShootPlan plan, String id) {
        return plan.shot(id).orElseThrow();
    }

    /** The same shot with others, otherwise, from elsewhere. */
    static Shot changed(
            Shot s, List<String> people, Arrangement how, double lens, double distance) {
        return new Shot(
                s.id(),
                s.name(),
                s.safe(),
                s.look(),
                people,
                how,
                lens,
                distance,
                s.cameraHeightMetres(),
                s.framing(),
                s.say(),
                s.importance(),
                s.use());
    }

    static double number(Finding f, String name) {
        Object value = f.numbers().get(name);
        if (value instanceof Double d) {
            return d;
        }
        throw new AssertionError(name + " is " + value + " in " + f.numbers());
    }
}
