package lookstep.server.live;

import com.fasterxml.jackson.annotation.JsonSubTypes;
import com.fasterxml.jackson.annotation.JsonTypeInfo;
import java.util.List;
import lookstep.server.look.Adjustment;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.Job;
import lookstep.server.plan.Shot;

/** What can happen in a shoot. Each is in the journal before anybody is answered. */
@JsonTypeInfo(use = JsonTypeInfo.Id.NAME, property = "event")
@JsonSubTypes({
    @JsonSubTypes.Type(value = Event.Opened.class, name = "opened"),
    @JsonSubTypes.Type(value = Event.WentTo.class, name = "went to"),
    @JsonSubTypes.Type(value = Event.ClockStarted.class, name = "clock started"),
    @JsonSubTypes.Type(value = Event.ClockPaused.class, name = "clock paused"),
    @JsonSubTypes.Type(value = Event.KeysMade.class, name = "keys made"),
    @JsonSubTypes.Type(value = Event.FoundBefore.class, name = "found before"),
    @JsonSubTypes.Type(value = Event.FrameTaken.class, name = "frame taken"),
    @JsonSubTypes.Type(value = Event.FrameJoined.class, name = "frame joined"),
    @JsonSubTypes.Type(value = Event.FileLeftOut.class, name = "file left out"),
    @JsonSubTypes.Type(value = Event.FrameBelongs.class, name = "frame belongs"),
    @JsonSubTypes.Type(value = Event.FrameMarked.class, name = "frame marked"),
    @JsonSubTypes.Type(value = Event.FrameChecked.class, name = "frame checked"),
    @JsonSubTypes.Type(value = Event.FrameCopied.class, name = "frame copied"),
    @JsonSubTypes.Type(value = Event.ShowingChanged.class, name = "showing changed"),
    @JsonSubTypes.Type(value = Event.SameAgain.class, name = "same again"),
    @JsonSubTypes.Type(value = Event.Nudged.class, name = "nudged"),
    @JsonSubTypes.Type(value = Event.Kept.class, name = "kept"),
    @JsonSubTypes.Type(value = Event.Forgotten.class, name = "forgotten"),
    @JsonSubTypes.Type(value = Event.Undone.class, name = "undone"),
    @JsonSubTypes.Type(value = Event.Testing.class, name = "testing"),
    @JsonSubTypes.Type(value = Event.TestEnded.class, name = "test ended"),
    @JsonSubTypes.Type(value = Event.FlashingAcknowledged.class, name = "flashing acknowledged"),
    @JsonSubTypes.Type(value = Event.Ordered.class, name = "ordered"),
    @JsonSubTypes.Type(value = Event.Recut.class, name = "re-cut"),
    @JsonSubTypes.Type(value = Event.CutTakenBack.class, name = "re-cut taken back"),
    @JsonSubTypes.Type(value = Event.ShotsAdded.class, name = "shots added"),
    @JsonSubTypes.Type(value = Event.JobOpened.class, name = "job opened"),
    @JsonSubTypes.Type(value = Event.JobSwitched.class, name = "job switched"),
    @JsonSubTypes.Type(value = Event.MovedTo.class, name = "moved to"),
    @JsonSubTypes.Type(value = Event.Renamed.class, name = "renamed"),
    @JsonSubTypes.Type(value = Event.FrameOfPlates.class, name = "frame of plates"),
    @JsonSubTypes.Type(value = Event.PlatesBegun.class, name = "plates begun"),
    @JsonSubTypes.Type(value = Event.PlateShown.class, name = "plate shown"),
    @JsonSubTypes.Type(value = Event.PlateTaken.class, name = "plate taken"),
    @JsonSubTypes.Type(value = Event.PlateAsked.class, name = "plate asked again"),
    @JsonSubTypes.Type(value = Event.PlatesEnded.class, name = "plates ended"),
    @JsonSubTypes.Type(value = Event.PlatesStale.class, name = "plates stale"),
    @JsonSubTypes.Type(value = Event.PlatesGood.class, name = "plates good"),
    @JsonSubTypes.Type(value = Event.PlatesForgotten.class, name = "plates forgotten")
})
public sealed interface Event {
    /**
     * The program began to serve this shoot.
     *
     * @param planHash SHA-256 of the plan file, in hex: tells that it was edited between two starts
     */
    record Opened(String planHash) implements Event {}

    /**
     * This shot is now current.
     *
     * @param position 1 is the first of the running order; 0 is before it
     * @param shot its id, empty before the first
     */
    record WentTo(int position, String shot) implements Event {}

    /**
     * The words that let pages in, made once for a shoot, so that pages find back after a restart.
     *
     * @param crew opens everything
     * @param band opens the pictures
     * @param cookie the name under which browsers keep them
     */
    record KeysMade(String crew, String band, String cookie) implements Event {}

    /**
     * Files that lay in the frames folder before this shoot began: not of this shoot, left alone.
     *
     * @param files which
     */
    record FoundBefore(List<FileMark> files) implements Event {}

    /**
     * A file as it was when it was seen: tells whether it is still the same.
     *
     * @param path where it lies
     * @param bytes its size
     * @param modifiedEpochMillis its time of last change on disk
     */
    record FileMark(String path, long bytes, long modifiedEpochMillis) {}

    /** The window's clock runs from now. */
    record ClockStarted() implements Event {}

    /** The window's clock stands. */
    record ClockPaused() implements Event {}

    /**
     * A frame came in whole.
     *
     * @param number 1, 2, 3 ... as they came
     * @param file where the original lies
     * @param shot the shot it is of, empty before the first
     * @param takenAt when it was exposed by the camera's clock, ISO 8601 without zone; empty if
     *     unknown
     * @param says its exposure in words
     * @param camera which camera, empty if unknown
     * @param look the look that was on
     * @param people who is on it, left to right
     * @param job whom it is for; empty for the plan's first
     * @param arrivedEpochMillis when it came in
     */
    record FrameTaken(
            int number,
            FileMark file,
            String shot,
            String takenAt,
            String says,
            String camera,
            String look,
            List<String> people,
            String job,
            long arrivedEpochMillis)
            implements Event {
        /** A journal may be older than what came to be written into it. */
        public FrameTaken {
            camera = camera == null ? "" : camera;
            look = look == null ? "" : look;
            people = people == null ? List.of() : List.copyOf(people);
            job = job == null ? "" : job;
        }
    }

    /**
     * Another file of the same release, such as a raw file beside the JPEG.
     *
     * @param camera which, {@code takenAt} when and {@code says} how, in case the first file did
     *     not say
     */
    record FrameJoined(int number, FileMark file, String camera, String takenAt, String says)
            implements Event {}

    /**
     * A file that is no frame of its own, because one of the same content is there.
     *
     * @param says why, in words
     */
    record FileLeftOut(FileMark file, String says) implements Event {}

    /**
     * A frame is of another shot than was thought.
     *
     * @param shot its id, empty for none
     * @param byHand somebody said so; otherwise the camera's clock is known better by now
     */
    record FrameBelongs(
            int number, String shot, String look, List<String> people, String job, boolean byHand)
            implements Event {
        public FrameBelongs {
            people = List.copyOf(people);
            job = job == null ? "" : job;
        }
    }

    /** The photographer keeps a frame, or does not, or has not said. */
    record FrameMarked(int number, Frame.Mark mark) implements Event {}

    /**
     * A frame was looked at.
     *
     * @param remarks what is to be said of it, the most important first
     * @param fingerprint tells it from others, as text
     */
    record FrameChecked(int number, List<Remark> remarks, String fingerprint) implements Event {
        public FrameChecked {
            remarks = List.copyOf(remarks);
        }
    }

    /**
     * One thing about a frame.
     *
     * @param about which check
     * @param weight good, look or wrong
     * @param says in plain words
     */
    record Remark(String about, String weight, String says) {}

    /**
     * A file of a frame lies in its second place, read back and compared.
     *
     * @param file the original's path, as in its mark
     * @param sha256 of both, in hex
     * @param copy where it lies
     */
    record FrameCopied(int number, String file, String sha256, String copy) implements Event {}

    /** What the band gets to see from now on. */
    record ShowingChanged(Showing showing) implements Event {}

    /** The current shot once more, from the look as it is. */
    record SameAgain() implements Event {}

    /**
     * The light of a shot was changed.
     *
     * @param shot its id
     * @param look the look it is on: on another one, after the plan was edited, it is not changed
     * @param adjustment all that is changed now
     * @param says the one change in words
     */
    record Nudged(String shot, String look, Adjustment adjustment, String says) implements Event {}

    /** The shot's changes became its look's. */
    record Kept(String shot, String look, String says) implements Event {}

    /** The shot's changes, or without any those kept in its look, are gone. */
    record Forgotten(String shot, String look, String says) implements Event {}

    /** The newest change of the light was taken back. */
    record Undone() implements Event {}

    /** This light or slot alone, until the test ends or the next shot comes. */
    record Testing(RigTest test) implements Event {}

    /** The lights are back at the look. */
    record TestEnded() implements Event {}

    /**
     * The order follows the plan, or somebody wants a shot next.
     *
     * @param order ids; the current shot keeps its place among those before it
     * @param leftOut ids of what a re-cut left out
     */
    record Ordered(List<String> order, List<String> leftOut) implements Event {
        public Ordered {
            order = List.copyOf(order);
            leftOut = List.copyOf(leftOut);
        }
    }

    /**
     * The running order was fitted to the time that is left, or a round was put next: what can be
     * taken back.
     *
     * @param order ids, what was made first
     * @param leftOut ids
     * @param windowMillis how long the window is now, counted from its beginning
     * @param says the same in words
     */
    record Recut(List<String> order, List<String> leftOut, long windowMillis, String says)
            implements Event {
        public Recut {
            order = List.copyOf(order);
            leftOut = List.copyOf(leftOut);
        }
    }

    /** The order and the window are as before the newest re-cut, behind what was made since. */
    record CutTakenBack(List<String> order, List<String> leftOut) implements Event {
        public CutTakenBack {
            order = List.copyOf(order);
            leftOut = List.copyOf(leftOut);
        }
    }

    /** Shots that the plan file does not have: a solos round, or what a second client wants. */
    record ShotsAdded(List<Shot> shots) implements Event {
        public ShotsAdded {
            shots = List.copyOf(shots);
        }
    }

    /** Somebody else wants pictures too. */
    record JobOpened(Job job) implements Event {}

    /** From now on it is for this client; empty for the plan's first. */
    record JobSwitched(String client) implements Event {}

    /** The shoot goes on at another of its places. */
    record MovedTo(String place) implements Event {}

    /**
     * Something of the plan is called otherwise now.
     *
     * @param kind look or person
     */
    record Renamed(String kind, String from, String to) implements Event {}

    /** Somebody of the crew said that everybody was told of the flashing that the plan allows. */
    record FlashingAcknowledged(boolean acknowledged) implements Event {}

    /** A frame was exposed while plates were taken: it is of no shot. */
    record FrameOfPlates(int number, String id) implements Event {}

    /**
     * From now on frames are taken with known light, one for each step.
     *
     * @param id tells it from other runs
     * @param shot whose camera position and people they are for
     * @param look whose camera settings they are taken with, and where it has the lights
     * @param camera the settings of all frames
     * @param hangsOn what of the rig they hang on, as a hash
     * @param standsOn what of the shot and the place they hang on, as a hash; empty if it was not
     *     written down
     * @param standIn one person in the middle; otherwise the people of the shot
     * @param steps in the order to be taken, at least one
     */
    record PlatesBegun(
            String id,
            String shot,
            String look,
            CameraSettings camera,
            String hangsOn,
            String standsOn,
            boolean standIn,
            List<PlateStep> steps)
            implements Event {
        public PlatesBegun {
            standsOn = standsOn == null ? "" : standsOn;
            steps = List.copyOf(steps);
        }

        /** The same where the look is called otherwise. */
        PlatesBegun on(String name) {
            return new PlatesBegun(id, shot, name, camera, hangsOn, standsOn, standIn, steps);
        }
    }

    /** The light of this step, counted from 0, is on. */
    record PlateShown(String id, int step) implements Event {}

    /**
     * A frame is the one of a step.
     *
     * @param number of the frame
     * @param says what is uncertain about it, in words; empty if nothing is
     */
    record PlateTaken(String id, int step, int number, String says) implements Event {}

    /**
     * The frame of a step is wanted once more.
     *
     * @param why what was wrong and what to do, in words
     * @param byHand somebody asked for it
     * @param levels the light that the step has from now on; empty if it stays
     */
    record PlateAsked(String id, int step, String why, boolean byHand, List<List<Double>> levels)
            implements Event {
        public PlateAsked {
            levels = levels == null ? List.of() : levels.stream().map(List::copyOf).toList();
        }
    }

    /**
     * No more plates are taken.
     *
     * @param why it was given up, in words; empty if every step has its frame
     */
    record PlatesEnded(String id, String why) implements Event {}

    /** The newest whole set no longer holds. */
    record PlatesStale(String id, String why) implements Event {}

    /** Somebody says that nothing has moved since the newest whole set. */
    record PlatesGood(String id) implements Event {}

    /** The newest whole set is not to be used any more. */
    record PlatesForgotten(String id) implements Event {}
}
