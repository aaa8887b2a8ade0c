package lookstep.server.checks;

import lookstep.simulator.model.scene.Figure;
import lookstep.simulator.model.space.Vec3;

/**
 * How wide a standing person is at each height, in shares of their height: half of what is seen
 * from the front with the arms at the sides. From tables of standing adults (from memory); drawn
 * apart from the solids that pictures are made of.
 */
final class Stature {
    private static final double[] HEIGHT = {
        0.0, 0.03, 0.10, 0.28, 0.40, 0.47, 0.53, 0.60, 0.70, 0.78, 0.81, 0.84, 0.87, 0.91, 0.95,
        0.985, 1.0
    };
    private static final double[] HALF = {
        0.11, 0.10, 0.09, 0.095, 0.12, 0.15, 0.165, 0.17, 0.15, 0.135, 0.115, 0.05, 0.036, 0.044,
        0.05, 0.035, 0.0
    };

    private Stature() {}

    /** Half the width, metres, at a height in metres. */
    static double half(Figure f, double z) {
        double share = z / f.heightMetres();
        for (int i = 1; i < HEIGHT.length; i++) {
            if (share <= HEIGHT[i]) {
                double t = (share - HEIGHT[i - 1]) / (HEIGHT[i] - HEIGHT[i - 1]);
                return f.heightMetres() * (HALF[i - 1] + t * (HALF[i] - HALF[i - 1]));
            }
        }
        return 0;
    }

    /** Half the width of the head, metres. */
    static double halfHead(Figure f) {
        return 0.05 * f.heightMetres();
    }

    /** Half the width over the arms, metres. */
    static double halfWidth(Figure f) {
        return 0.17 * f.heightMetres();
    }

    /** Top of the hair. */
    static Vec3 top(Figure f) {
        return f.feet().plus(new Vec3(0, 0, f.heightMetres() * 1.02));
    }
}
