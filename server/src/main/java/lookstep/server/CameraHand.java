package lookstep.server;

import java.util.List;
import lookstep.server.gear.CameraControl;
import lookstep.server.gear.CameraControl.Standing;
import lookstep.server.lighting.Shown;

/** Sets the camera with the light, and knows what is left to do by hand. */
final class CameraHand {
    private final CameraControl control;
    private volatile List<String> byHand = List.of();

    /**
     * @param changed is called when there is more or less to do by hand
     */
    CameraHand(CameraControl control, Runnable changed) {
        this.control = control;
        control.watch(
                standing -> {
                    byHand = words(standing);
                    changed.run();
                });
    }

    private static List<String> words(Standing standing) {
        return standing.connected() ? standing.byHand() : List.of();
    }

    /** The camera is to be as the look wants it; what it is under the work light is its own. */
    void want(Shown shown) {
        if (shown.what() == Shown.What.LOOK) {
            control.want(shown.look().camera());
        }
    }

    /** What the camera did not let itself be set to, each as a thing to do. */
    List<String> byHand() {
        return byHand;
    }
}
