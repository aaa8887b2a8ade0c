package lookstep.server.order;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import lookstep.server.order.Change.Part;
import lookstep.server.order.ChangeKind.Hand;

/**
 * What has to change between two shots and how long that takes.
 *
 * <p>The photographer speaks, changes the lens and moves the camera, one after the other. Meanwhile
 * the assistant presses the key and then moves lights, and people walk. So a change takes as long
 * as the slowest of the three, and {@link Times#togetherShare} of what the others do. Going to
 * another room comes before all of that.
 */
public final class Changes {
    private static final double SAME_METRES = 0.05;
    private static final double SAME_MILLIMETRES = 0.5;

    private Changes() {}

    /** Before the first shot: the look comes up and the pose is said; all else stands ready. */
    public static Change first(Item to, Times times) {
        List<Part> parts = new ArrayList<>();
        parts.add(new Part(ChangeKind.LOOK, times.lookSeconds()));
        parts.add(new Part(ChangeKind.WORDS, times.wordsSeconds()));
        return of(parts, times.togetherShare());
    }

    /** From one shot to the next. */
    public static Change between(Item from, Item to, Times times) {
        List<Part> parts = new ArrayList<>();
        if (!from.look().equals(to.look())) {
            parts.add(new Part(ChangeKind.LOOK, times.lookSeconds()));
        }
        int walking = comingOrGoing(from.people(), to.people());
        boolean pose =
                walking > 0
                        || !from.arrangement().equals(to.arrangement())
                        || !from.direction().equals(to.direction());
        if (pose) {
            parts.add(new Part(ChangeKind.WORDS, times.wordsSeconds()));
        }
        if (walking > 0) {
            parts.add(
                    new Part(
                            ChangeKind.PEOPLE,
                            times.peopleSeconds() + (walking - 1) * times.eachMorePersonSeconds()));
        }
        if (Math.abs(from.lensMillimetres() - to.lensMillimetres()) > SAME_MILLIMETRES) {
            parts.add(new Part(ChangeKind.LENS, times.lensSeconds()));
        }
        if (Math.abs(from.distanceMetres() - to.distanceMetres()) > SAME_METRES
                || Math.abs(from.cameraHeightMetres() - to.cameraHeightMetres()) > SAME_METRES) {
            parts.add(new Part(ChangeKind.CAMERA, times.cameraSeconds()));
        }
        int lights = lightsCarried(from.movedLights(), to.movedLights());
        if (lights > 0) {
            parts.add(new Part(ChangeKind.LIGHTS, lights * times.lightSeconds()));
        }
        if (!from.room().equals(to.room())) {
            parts.add(new Part(ChangeKind.ROOM, times.roomSeconds()));
        }
        return parts.isEmpty() ? Change.NONE : of(parts, times.togetherShare());
    }

    private static Change of(List<Part> parts, double togetherShare) {
        Map<Hand, Double> hands = new EnumMap<>(Hand.class);
        for (Part part : parts) {
            hands.merge(part.kind().hand(), part.seconds(), Double::sum);
        }
        double alone = hands.getOrDefault(Hand.EVERYBODY, 0.0);
        hands.remove(Hand.EVERYBODY);
        double slowest = 0;
        double sum = 0;
        for (double seconds : hands.values()) {
            slowest = Math.max(slowest, seconds);
            sum += seconds;
        }
        return new Change(parts, alone + slowest + togetherShare * (sum - slowest));
    }

    private static int comingOrGoing(Set<String> from, Set<String> to) {
        Set<String> stay = new HashSet<>(from);
        stay.retainAll(to);
        return from.size() + to.size() - 2 * stay.size();
    }

    private static int lightsCarried(Map<String, String> from, Map<String, String> to) {
        Set<String> lights = new HashSet<>(from.keySet());
        lights.addAll(to.keySet());
        lights.removeIf(light -> from.getOrDefault(light, "").equals(to.getOrDefault(light, "")));
        return lights.size();
    }
}
