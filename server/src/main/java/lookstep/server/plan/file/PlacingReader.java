package lookstep.server.plan.file;

import lookstep.server.plan.Light;
import lookstep.server.plan.Placing;
import lookstep.simulator.model.space.Vec3;

/** Where a light stands; what is not said stays as the rig has it. */
final class PlacingReader {
    private PlacingReader() {}

    static Placing read(Fields f, Light light, Problems problems) {
        Vec3 position =
                f.optional(
                        "position",
                        "[-2, 1.5, 2.4]",
                        v -> v.point("[-2, 1.5, 2.4]"),
                        light.position());
        Vec3 aim = f.optional("aim", "[0, 0, 1.6]", v -> v.point("[0, 0, 1.6]"), light.aim());
        if (position.equals(aim)) {
            problems.error(
                    f.at(),
                    f.path("position") + " and aim are the same point",
                    "write where the light stands, and as aim what it looks at");
        }
        return new Placing(position, aim);
    }
}
