package lookstep.server.order;

import java.util.Optional;

/**
 * A shot that is not in a running order.
 *
 * @param id the shot
 * @param reason why
 * @param instead of those made, in the bag or in the order, the one most like it, if any is alike
 */
public record Dropped(String id, Reason reason, Optional<String> instead) {
    /** Why a shot is not in. */
    public enum Reason {
        /** It alone (or its whole round) is longer than the window. */
        TOO_LONG,
        /** Its round was begun and the rest does not fit any more. */
        REST_DOES_NOT_FIT,
        /** It would fit, but others are worth more in the same time. */
        OTHERS_COUNT_MORE,
        /** In the order as it is written, its time is behind the end of the window. */
        FALLS_OFF
    }
}
