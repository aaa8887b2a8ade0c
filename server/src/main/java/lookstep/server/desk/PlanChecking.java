package lookstep.server.desk;

import java.util.List;
import lookstep.server.lighting.Lightings;
import lookstep.server.live.LiveState;
import lookstep.server.live.NotPossible;
import lookstep.server.order.Variety;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.edit.Edit;
import lookstep.server.plan.edit.EditRefused;
import lookstep.server.plan.edit.PlanDocument;
import lookstep.server.web.ChecksPart;
import lookstep.server.window.ShotItems;

/** The plan's checks, worked out on a thread of its own, the newest plan only. */
public final class PlanChecking {
    private final Lightings lightings;

    public PlanChecking(Lightings lightings) {
        this.lightings = lightings;
    }

    void of(LiveState state) {
        lightings.of(state);
    }

    ChecksPart part() {
        return ChecksPart.NONE;
    }

    Variety variety(ShootPlan plan) {
        return Variety.of(ShotItems.of(plan));
    }

    List<Edit> mend(String finding, PlanDocument document) throws NotPossible, EditRefused {
        throw new NotPossible("there is no finding '" + finding + "' " + document.text().length());
    }

    String mendSays(String finding) {
        return finding;
    }
}
