package lookstep.server.look;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import lookstep.server.plan.Light;
import lookstep.simulator.model.space.Vec3;

/**
 * Which lights stand opposite each other, left and right of the people. Each light takes the one
 * nearest to its own mirror image; lights in the middle, those that do not light the people, and
 * those without a counterpart at all, stay.
 */
public final class LeftRight {
    /** Nearer to the middle than this is neither left nor right. */
    private static final double MIDDLE_METRES = 0.5;

    /** Farther from the mirror image than this is no counterpart. */
    private static final double MOST_METRES = 2.5;

    /** Of the light on the beam's axis. */
    private static final double LEAST_OF_AXIS = 0.1;

    private record Pair(String left, String right, double off) {}

    private LeftRight() {}

    /** Whether the people are in its beam, and not only in what spills from it. */
    private static boolean lightsPeople(Light light) {
        double metres = light.position().minus(LookLevels.SUBJECT).length();
        return LookLevels.luxAtSubject(light, 1) * metres * metres >= LEAST_OF_AXIS;
    }

    /** By name, in both directions. */
    public static Map<String, String> counterparts(List<Light> rig) {
        List<Pair> near = new ArrayList<>();
        for (Light left : rig) {
            for (Light right : rig) {
                if (left.position().x() < -MIDDLE_METRES
                        && right.position().x() > MIDDLE_METRES
                        && lightsPeople(left)
                        && lightsPeople(right)) {
                    Vec3 p = left.position();
                    Vec3 mirrored = new Vec3(-p.x(), p.y(), p.z());
                    double off = mirrored.minus(right.position()).length();
                    if (off <= MOST_METRES) {
                        near.add(new Pair(left.name(), right.name(), off));
                    }
                }
            }
        }
        near.sort((a, b) -> Double.compare(a.off(), b.off()));
        Map<String, String> found = new LinkedHashMap<>();
        for (Pair pair : near) {
            if (!found.containsKey(pair.left()) && !found.containsKey(pair.right())) {
                found.put(pair.left(), pair.right());
                found.put(pair.right(), pair.left());
            }
        }
        return found;
    }
}
