package lookstep.server.live;

import java.util.List;
import java.util.Optional;
import java.util.function.IntPredicate;

/**
 * What the band gets to see.
 *
 * @param mode which frames
 * @param held the frame that stays while {@link Mode#HOLD}; 0 for none
 */
public record Showing(Mode mode, int held) {
    /** Which frames the band sees. */
    public enum Mode {
        /** Each as it comes, but for those that are left out, and plates. */
        ALL,
        /** The newest that is kept. */
        KEPT,
        /** What they saw when it was asked for. */
        HOLD
    }

    /** Everything, as long as nobody says otherwise. */
    public static final Showing ALL = new Showing(Mode.ALL, 0);

    /**
     * The frame that the band sees: the newest that it may.
     *
     * @param frames all, in the order they came
     * @param canBeShown whether there is a picture of the frame of this number
     */
    public Optional<Frame> of(List<Frame> frames, IntPredicate canBeShown) {
        for (int i = frames.size() - 1; i >= 0; i--) {
            Frame frame = frames.get(i);
            if (may(frame) && canBeShown.test(frame.number())) {
                return Optional.of(frame);
            }
        }
        return Optional.empty();
    }

    /** Whether the band may see the frame of this number. */
    public boolean shows(List<Frame> frames, int number) {
        return number >= 1 && number <= frames.size() && may(frames.get(number - 1));
    }

    private boolean may(Frame frame) {
        return switch (mode) {
            case ALL -> frame.mark() != Frame.Mark.OUT && !frame.ofPlates();
            case KEPT -> frame.mark() == Frame.Mark.KEPT;
            case HOLD -> frame.number() == held;
        };
    }
}
