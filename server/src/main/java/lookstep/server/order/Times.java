package lookstep.server.order;

import java.util.Map;

/**
 * How long each kind of change takes by itself, in seconds from 0 to 600.
 *
 * @param lookSeconds a key press and its fade
 * @param wordsSeconds a pose is said and taken
 * @param peopleSeconds somebody comes in or goes out: the first person
 * @param eachMorePersonSeconds each further person who comes or goes
 * @param lensSeconds another focal length
 * @param cameraSeconds the camera stands nearer, farther, higher or lower
 * @param lightSeconds each light that is carried to another place
 * @param roomSeconds all go to another room
 * @param togetherShare 0..1: what is done at the same time by other hands still costs this share,
 *     for looking up, asking and waiting
 */
public record Times(
        double lookSeconds,
        double wordsSeconds,
        double peopleSeconds,
        double eachMorePersonSeconds,
        double lensSeconds,
        double cameraSeconds,
        double lightSeconds,
        double roomSeconds,
        double togetherShare) {
    /** Figures of our own, for a small set with one assistant. */
    public static final Times USUAL = new Times(2, 4, 5, 1, 8, 5, 12, 60, 0.2);

    private static final double MOST_SECONDS = 600;

    /**
     * @throws IllegalArgumentException naming the figure that is out of its range
     */
    public Times {
        inRange("look", lookSeconds, MOST_SECONDS);
        inRange("words", wordsSeconds, MOST_SECONDS);
        inRange("people", peopleSeconds, MOST_SECONDS);
        inRange("each more person", eachMorePersonSeconds, MOST_SECONDS);
        inRange("lens", lensSeconds, MOST_SECONDS);
        inRange("camera", cameraSeconds, MOST_SECONDS);
        inRange("light", lightSeconds, MOST_SECONDS);
        inRange("room", roomSeconds, MOST_SECONDS);
        inRange("together share", togetherShare, 1);
    }

    private static void inRange(String what, double value, double most) {
        if (!(value >= 0 && value <= most)) {
            throw new IllegalArgumentException(
                    "times of changes: " + what + " is 0 to " + (int) most + ", not " + value);
        }
    }

    /**
     * Each kind of change longer or shorter by its factor, at most 600 s; a kind not named stays.
     */
    Times scaled(Map<ChangeKind, Double> factors) {
        double people = factors.getOrDefault(ChangeKind.PEOPLE, 1.0);
        return new Times(
                times(lookSeconds, factors.getOrDefault(ChangeKind.LOOK, 1.0)),
                times(wordsSeconds, factors.getOrDefault(ChangeKind.WORDS, 1.0)),
                times(peopleSeconds, people),
                times(eachMorePersonSeconds, people),
                times(lensSeconds, factors.getOrDefault(ChangeKind.LENS, 1.0)),
                times(cameraSeconds, factors.getOrDefault(ChangeKind.CAMERA, 1.0)),
                times(lightSeconds, factors.getOrDefault(ChangeKind.LIGHTS, 1.0)),
                times(roomSeconds, factors.getOrDefault(ChangeKind.ROOM, 1.0)),
                togetherShare);
    }

    private static double times(double seconds, double factor) {
        return Math.min(MOST_SECONDS, seconds * factor);
    }
}
