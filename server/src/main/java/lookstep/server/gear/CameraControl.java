package lookstep.server.gear;

import java.util.List;
import java.util.function.Consumer;
import lookstep.server.plan.CameraSettings;

/** Sets a camera from here, as far as it lets itself be set. Any thread; nobody is held up. */
public interface CameraControl {
    /**
     * Wants the camera like this from now on, also when it comes back after it was gone. What it
     * was wanted like before, and is not set yet, is forgotten.
     */
    void want(CameraSettings settings);

    /** Releases the shutter. */
    void release();

    /** Gets {@link Standing} whenever it changed. One watcher; set before the way is started. */
    void watch(Consumer<Standing> watcher);

    /**
     * How the camera stands to what was last wanted.
     *
     * @param connected whether it can be spoken to
     * @param canRelease whether it lets itself be released from here
     * @param byHand what it did not let itself be set to, each as a thing to do: {@code set f/8 on
     *     the camera: it takes no f-number from here}; empty when all is as wanted
     */
    record Standing(boolean connected, boolean canRelease, List<String> byHand) {
        public Standing {
            byHand = List.copyOf(byHand);
        }
    }
}
