package lookstep.server.live;

import com.fasterxml.jackson.annotation.JsonSubTypes;
import com.fasterxml.jackson.annotation.JsonTypeInfo;
import java.util.List;
import lookstep.server.look.Adjustment;

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
    @JsonSubTypes.Type(value = Event.SameAgain.class, name = "same again"),
    @JsonSubTypes.Type(value = Event.Nudged.class, name = "nudged"),
    @JsonSubTypes.Type(value = Event.Kept.class, name = "kept"),
    @JsonSubTypes.Type(value = Event.Forgotten.class, name = "forgotten"),
    @JsonSubTypes.Type(value = Event.Undone.class, name = "undone"),
    @JsonSubTypes.Type(value = Event.Testing.class, name = "testing"),
    @JsonSubTypes.Type(value = Event.TestEnded.class, name = "test ended"),
    @JsonSubTypes.Type(value = Event.FlashingAcknowledged.class, name = "flashing acknowledged")
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
     * @param shot the shot that was current, empty before the first
     * @param takenAt when it was exposed by the camera's clock, ISO 8601 without zone; empty if
     *     unknown
     * @param says its exposure in words
     */
    record FrameTaken(int number, FileMark file, String shot, String takenAt, String says)
            implements Event {}

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

    /** Somebody of the crew said that everybody was told of the flashing that the plan allows. */
    record FlashingAcknowledged(boolean acknowledged) implements Event {}
}
