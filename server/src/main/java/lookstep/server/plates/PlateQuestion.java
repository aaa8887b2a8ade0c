package lookstep.server.plates;

import java.util.Optional;
import lookstep.server.lighting.Lighting;
import lookstep.server.live.LiveState;
import lookstep.server.live.PlateSet;
import lookstep.server.live.Timeline.Since;
import lookstep.server.plan.Shot;

/** When plates that nothing speaks against are to be asked about. Pure. */
public final class PlateQuestion {
    /** Stands sink, houses change their light, somebody has passed (common practice). */
    static final long AFTER_MILLIS = 20 * 60_000L;

    private PlateQuestion() {}

    /** Why somebody should say whether anything has moved, in words; empty if not yet. */
    public static Optional<String> of(LiveState state, Lighting lighting, long nowEpochMillis) {
        Optional<PlateSet> set =
                state.plates()
                        .set()
                        .filter(s -> s.stale().isEmpty() && state.plates().run().isEmpty());
        if (set.isEmpty()) {
            return Optional.empty();
        }
        long good = set.get().goodEpochMillis();
        if (nowEpochMillis - good >= AFTER_MILLIS) {
            return Optional.of(
                    "%d minutes have gone by".formatted((nowEpochMillis - good) / 60_000));
        }
        Optional<Shot> of = lighting.plan().shot(set.get().run().begun().shot());
        return state.timeline().shots().stream()
                .filter(s -> s.atEpochMillis() > good)
                .map(Since::shot)
                .flatMap(id -> lighting.plan().shot(id).stream())
                .filter(shot -> of.isPresent() && moves(of.get(), shot))
                .findFirst()
                .map(shot -> "the camera was elsewhere for ‘%s’".formatted(shot.name()));
    }

    private static boolean moves(Shot of, Shot shot) {
        return of.lensMillimetres() != shot.lensMillimetres()
                || of.distanceMetres() != shot.distanceMetres()
                || of.cameraHeightMetres() != shot.cameraHeightMetres();
    }
}
