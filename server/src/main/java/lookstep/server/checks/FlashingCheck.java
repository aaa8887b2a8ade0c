package lookstep.server.checks;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import lookstep.server.plan.ShootPlan;

/**
 * Whether the limit on opposing changes of light is kept: at most three a second (WCAG 2.2, success
 * criterion 2.3.1, a rule for screens that is kept for rooms here).
 */
final class FlashingCheck {
    private FlashingCheck() {}

    static List<Finding> of(ShootPlan plan) {
        if (!plan.flashingAllowed()) {
            return List.of();
        }
        return List.of(
                new Finding(
                        Kind.FLASHING,
                        Weight.LOOK,
                        Subject.PLAN,
                        "the plan lifts the limit of three opposing changes of light a second:"
                                + " repeated flashes can set off seizures, so tell everybody before",
                        Map.of("mostChangesASecond", 3.0),
                        Optional.of(
                                new Mend(
                                        "keep the limit: fades and steps do without flashes",
                                        List.of(new Change(List.of("flashing"), "forbidden"))))));
    }
}
