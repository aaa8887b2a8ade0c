package lookstep.simulator.model.picture;

import lookstep.simulator.model.space.Vec3;

/**
 * Unevenness of floor, wall and cloth, so that they read as such; the mean stays what the room
 * says. Always the same at the same place.
 */
final class Grain {
    private static final double BOARD_METRES = 0.16;

    private Grain() {}

    /** Factor on the reflectance, mean 1. */
    static double of(Part part, Vec3 p) {
        return switch (part) {
            case FLOOR -> boards(p.x(), p.y());
            case BACKGROUND -> 1 + 0.05 * mottle(p.x(), p.z());
            case WALL -> 1 + 0.05 * mottle(p.x() + p.y(), p.z() + p.y());
            default -> 1;
        };
    }

    /** Cloth hangs in soft folds: a normal that swings to the left and right. */
    static Vec3 clothNormal(Vec3 p) {
        double x = p.x() * 9 + 0.6 * Math.sin(p.z() * 1.3 + p.x() * 2);
        return new Vec3(0.16 * Math.sin(x) + 0.07 * Math.sin(2.3 * x + 1), -1, 0).unit();
    }

    private static double boards(double x, double y) {
        double across = x / BOARD_METRES;
        long board = (long) Math.floor(across);
        double tone = 0.16 * (chance(board) - 0.5);
        // Each board starts somewhere else, and its grain runs along it.
        double along = 0.04 * Math.sin(y * 2.1 + 40 * chance(board + 77));
        double within = across - Math.floor(across);
        // A dark joint; what it takes is given back to the board.
        double joint = 0.012 / BOARD_METRES;
        return (1 + tone + along) * (within < joint ? 0.55 : 1 + 0.45 * joint / (1 - joint));
    }

    private static double mottle(double a, double b) {
        return 0.5 * Math.sin(a * 3.1 + 1.3 * Math.sin(b * 2.3))
                + 0.3 * Math.sin(b * 5.7 + 1.7 * Math.sin(a * 4.1))
                + 0.2 * Math.sin(a * 13 + b * 11);
    }

    private static double chance(long n) {
        long h = n * 0x9E3779B97F4A7C15L;
        h ^= h >>> 29;
        h *= 0xBF58476D1CE4E5B9L;
        h ^= h >>> 32;
        return (h >>> 11) / (double) (1L << 53);
    }
}
