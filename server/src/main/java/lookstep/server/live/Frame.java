package lookstep.server.live;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import lookstep.server.live.Event.FileMark;

/**
 * One picture of the shoot, and all that is known of it.
 *
 * @param number 1, 2, 3 ... as they came
 * @param files the original, and what the camera made beside it, such as a raw file; at least one
 * @param shot the shot it is of; empty before the first
 * @param look the look that was on, empty before the first
 * @param people who is on it, left to right
 * @param job whom it is for; empty for the plan's first
 * @param byHand true if somebody said which shot it is of; otherwise the camera's clock says it
 * @param camera which camera, as it calls itself; empty if it does not
 * @param takenAt when it was exposed by the camera's clock, ISO 8601 without zone; empty if unknown
 * @param arrivedEpochMillis when it came in, by this computer's clock
 * @param says its exposure in words
 * @param mark what the photographer said of it
 * @param checked what is odd about it; absent until it was looked at
 * @param copies the second places of its files, by the original's path
 * @param plates the run of plates that it was taken in; empty if it is a picture of the shoot
 */
public record Frame(
        int number,
        List<FileMark> files,
        String shot,
        String look,
        List<String> people,
        String job,
        boolean byHand,
        String camera,
        String takenAt,
        long arrivedEpochMillis,
        String says,
        Mark mark,
        Optional<Event.FrameChecked> checked,
        Map<String, Event.FrameCopied> copies,
        String plates) {

    /** What the photographer says of a frame. */
    public enum Mark {
        NONE,
        /** Its shot is in the bag. */
        KEPT,
        /** Not to be used. */
        OUT
    }

    public Frame {
        files = List.copyOf(files);
        people = List.copyOf(people);
        copies = Map.copyOf(copies);
    }

    static Frame of(Event.FrameTaken taken) {
        return new Frame(
                taken.number(),
                List.of(taken.file()),
                taken.shot(),
                taken.look(),
                taken.people(),
                taken.job(),
                false,
                taken.camera(),
                taken.takenAt(),
                taken.arrivedEpochMillis(),
                taken.says(),
                Mark.NONE,
                Optional.empty(),
                Map.of(),
                "");
    }

    /** The file that came first. */
    public FileMark file() {
        return files.get(0);
    }

    /** Whether it was taken to know the light, and not as a picture of a shot. */
    public boolean ofPlates() {
        return !plates.isEmpty();
    }

    Frame ofPlates(String run) {
        return new Frame(
                number,
                files,
                "",
                "",
                List.of(),
                job,
                byHand,
                camera,
                takenAt,
                arrivedEpochMillis,
                says,
                mark,
                Optional.empty(),
                copies,
                run);
    }

    Frame joined(Event.FrameJoined more) {
        List<FileMark> all = new ArrayList<>(files);
        all.add(more.file());
        return new Frame(
                number,
                all,
                shot,
                look,
                people,
                job,
                byHand,
                camera.isEmpty() ? more.camera() : camera,
                takenAt.isEmpty() ? more.takenAt() : takenAt,
                arrivedEpochMillis,
                says.isEmpty() ? more.says() : says,
                mark,
                checked,
                copies,
                plates);
    }

    Frame marked(Mark as) {
        return with(as, checked, copies);
    }

    Frame checked(Event.FrameChecked as) {
        return with(mark, Optional.of(as), copies);
    }

    Frame copied(Event.FrameCopied copy) {
        Map<String, Event.FrameCopied> more = new LinkedHashMap<>(copies);
        more.put(copy.file(), copy);
        return with(mark, checked, more);
    }

    private Frame with(
            Mark newMark,
            Optional<Event.FrameChecked> newChecked,
            Map<String, Event.FrameCopied> newCopies) {
        return new Frame(
                number,
                files,
                shot,
                look,
                people,
                job,
                byHand,
                camera,
                takenAt,
                arrivedEpochMillis,
                says,
                newMark,
                newChecked,
                newCopies,
                plates);
    }

    Frame belongs(Event.FrameBelongs to) {
        return new Frame(
                number,
                files,
                to.shot(),
                to.look(),
                to.people(),
                to.job(),
                to.byHand(),
                camera,
                takenAt,
                arrivedEpochMillis,
                says,
                mark,
                // what was said of it was said against another shot
                Optional.empty(),
                copies,
                "");
    }
}
