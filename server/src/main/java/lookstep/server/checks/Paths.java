package lookstep.server.checks;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import lookstep.server.plan.ShootPlan;
import lookstep.simulator.model.space.Vec3;

/** Where things stand in a plan file. */
final class Paths {
    private Paths() {}

    static List<Object> camera(String look, String key) {
        return List.of("looks", Map.of("name", look), "camera", key);
    }

    static List<Object> setting(String look, String light, String key) {
        return List.of("looks", Map.of("name", look), "lights", light, key);
    }

    static List<Object> shot(String id, String key) {
        return List.of("shots", Map.of("id", id), key);
    }

    static List<Object> light(String name, String key) {
        return List.of("rig", Map.of("name", name), key);
    }

    /** The place that the plan is at: alone in its file, or one of several. */
    static List<Object> place(ShootPlan plan) {
        return plan.locations().size() == 1
                ? List.of("place")
                : List.of("places", Map.of("name", plan.place().name()));
    }

    /** To centimetres, as a file would have it. */
    static List<Double> point(Vec3 p) {
        List<Double> xyz = new ArrayList<>();
        for (double v : new double[] {p.x(), p.y(), p.z()}) {
            xyz.add(Math.round(v * 100) / 100.0);
        }
        return xyz;
    }
}
