package lookstep.server.tryout;

import java.util.List;
import java.util.Optional;
import lookstep.server.plan.Look;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plan.edit.Edit;

/** STUB */
public final class TryOuts {
    public record Shown(ShootPlan plan, Shot shot, Look look) {}

    public Optional<Shown> shown(String id) {
        return Optional.empty();
    }

    public Object suggest(ShootPlan plan, Shot shot, int count, String lookOn) {
        throw new IllegalArgumentException("not yet");
    }

    public List<Edit> edits(ShootPlan plan, Look look, Shot base) {
        throw new IllegalArgumentException("not yet");
    }
}
