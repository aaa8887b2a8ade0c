package lookstep.server.checks;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import lookstep.server.look.LookLevels;
import lookstep.server.plan.Look;
import lookstep.server.plan.ShootPlan;

/** What the lights of a look cannot give; what would help stands in each note. */
final class LightCheck {
    private LightCheck() {}

    static List<Finding> of(ShootPlan plan, Look look) {
        return LookLevels.of(plan, look).notes().stream()
                .map(
                        note ->
                                new Finding(
                                        Kind.LIGHT,
                                        Weight.LOOK,
                                        new Subject("", look.name(), "", light(look, note)),
                                        note,
                                        Map.of(),
                                        Optional.empty()))
                .toList();
    }

    private static String light(Look look, String note) {
        return look.lights().keySet().stream()
                .filter(l -> note.startsWith("look ‘" + look.name() + "’: ‘" + l + "’"))
                .findFirst()
                .orElse("");
    }
}
