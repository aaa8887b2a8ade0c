package lookstep.server;

import java.util.List;
import lookstep.server.gear.CameraControl;
import lookstep.server.gear.CameraControl.Standing;
import lookstep.server.lighting.Shown;
import lookstep.server.live.LiveState;
import lookstep.server.plan.CameraSettings;

/** Sets the camera with the light, and knows what is left to do by hand. */
final class CameraHand {
    private final CameraControl control;
    private volatile List<String> byHand = List.of();
    private volatile boolean canRelease;
    private Wish last;

    private record Wish(String shot, int take, CameraSettings settings) {}

    /**
     * @param changed is called when there is more or less to do by hand
     */
    CameraHand(CameraControl control, Runnable changed) {
        this.control = control;
        control.watch(
                standing -> {
                    byHand = words(standing);
                    canRelease = standing.connected() && standing.canRelease();
                    changed.run();
                });
    }

    private static List<String> words(Standing standing) {
        return standing.connected() ? standing.byHand() : List.of();
    }

    /**
     * The camera is to be as the look wants it; under the work light it is its own. Only a step, a
     * new take or another setting is a wish: what was turned on the camera by hand since then
     * stays.
     */
    void want(LiveState state, Shown shown) {
        Wish wish = new Wish(state.shot(), state.take(), shown.look().camera());
        boolean meant = shown.what() == Shown.What.LOOK || shown.what() == Shown.What.PLATE;
        if (meant && !wish.equals(last)) {
            last = wish;
            control.want(wish.settings());
        }
    }

    /** What the camera did not let itself be set to, each as a thing to do. */
    List<String> byHand() {
        return byHand;
    }

    /** Whether the camera lets itself be released from here. */
    boolean canRelease() {
        return canRelease;
    }
}
