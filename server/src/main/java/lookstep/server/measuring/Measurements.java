package lookstep.server.measuring;

import java.util.Optional;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plates.MeasuredSet;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Keeps what was found in the newest plates. Any thread. */
public final class Measurements {
    private static final Logger LOG = LoggerFactory.getLogger(Measurements.class);

    /** The same if it is worked out already, with whichever plan; waits for nothing. */
    public Optional<MeasuredScene> known(String version) {
        Known now = known;
        return now.set().equals(version) ? now.scene() : Optional.empty();
    }

    private record Known(String set, ShootPlan plan, Optional<MeasuredScene> scene) {}

    private volatile Known known = new Known("", null, Optional.empty());

    /**
     * What a set comes to with a plan, worked out once; empty if nothing does.
     *
     * @param version tells the set, with all of its frames, from others
     * @param says when and of what the plates were taken, in words
     */
    public synchronized Optional<MeasuredScene> of(
            String version, MeasuredSet set, ShootPlan plan, String says) {
        if (!known.set().equals(version) || !plan.equals(known.plan())) {
            Optional<MeasuredScene> scene;
            try {
                scene = Optional.of(MeasuredScene.of(set, plan, says));
            } catch (RuntimeException e) {
                LOG.error("nothing is measured in the plates: {}", e.toString(), e);
                scene = Optional.empty();
            }
            known = new Known(version, plan, scene);
        }
        return known.scene();
    }
}
