package lookstep.server.live;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The state of the shoot, whole and immutable.
 *
 * @param revision how many events made it
 * @param position 0 before the first shot, otherwise the current one in the running order
 * @param shot the current shot's id, empty before the first
 * @param clock the window's clock
 * @param frames all, in the order they came
 * @param foundBefore files in the frames folder that are not of this shoot; absent before the
 *     folder was first seen
 * @param keys let pages in; absent before they are made
 * @param planHash the plan file as it was when the shoot was last opened, empty before
 */
public record LiveState(
        long revision,
        int position,
        String shot,
        Clock clock,
        List<Event.FrameTaken> frames,
        Optional<List<Event.FileMark>> foundBefore,
        Optional<Event.KeysMade> keys,
        String planHash) {
    /** Before any event. */
    public static final LiveState NEW =
            new LiveState(0, 0, "", Clock.NEW, List.of(), Optional.empty(), Optional.empty(), "");

    /** The newest frame. */
    public Optional<Event.FrameTaken> newestFrame() {
        return frames.isEmpty() ? Optional.empty() : Optional.of(frames.get(frames.size() - 1));
    }

    /** How many frames a shot has. */
    public int framesOf(String shotId) {
        return (int) frames.stream().filter(f -> f.shot().equals(shotId)).count();
    }

    /** This state after one more event. */
    public LiveState after(Event event, long atEpochMillis) {
        if (event instanceof Event.Opened e) {
            return next(position, shot, clock, frames, foundBefore, keys, e.planHash());
        } else if (event instanceof Event.WentTo e) {
            return next(e.position(), e.shot(), clock, frames, foundBefore, keys, planHash);
        } else if (event instanceof Event.ClockStarted) {
            return next(
                    position,
                    shot,
                    clock.start(atEpochMillis),
                    frames,
                    foundBefore,
                    keys,
                    planHash);
        } else if (event instanceof Event.ClockPaused) {
            return next(
                    position,
                    shot,
                    clock.pause(atEpochMillis),
                    frames,
                    foundBefore,
                    keys,
                    planHash);
        } else if (event instanceof Event.FoundBefore e) {
            return next(position, shot, clock, frames, Optional.of(e.files()), keys, planHash);
        }
        if (event instanceof Event.KeysMade e) {
            return next(position, shot, clock, frames, foundBefore, Optional.of(e), planHash);
        }
        List<Event.FrameTaken> more = new ArrayList<>(frames);
        more.add((Event.FrameTaken) event);
        return next(position, shot, clock, List.copyOf(more), foundBefore, keys, planHash);
    }

    private LiveState next(
            int newPosition,
            String newShot,
            Clock newClock,
            List<Event.FrameTaken> newFrames,
            Optional<List<Event.FileMark>> newFoundBefore,
            Optional<Event.KeysMade> newKeys,
            String newPlanHash) {
        return new LiveState(
                revision + 1,
                newPosition,
                newShot,
                newClock,
                newFrames,
                newFoundBefore,
                newKeys,
                newPlanHash);
    }
}
