package lookstep.simulator.model.space;

/**
 * A point or direction on the set, in metres. The origin is on the floor under the middle of the
 * nearest row, where the person nearest to the camera has y = 0; {@code x} grows to the right as
 * the camera sees it, {@code y} away from the camera (whoever stands behind that row is positive),
 * {@code z} up.
 */
public record Vec3(double x, double y, double z) {
    public Vec3 plus(Vec3 o) {
        return new Vec3(x + o.x, y + o.y, z + o.z);
    }

    public Vec3 minus(Vec3 o) {
        return new Vec3(x - o.x, y - o.y, z - o.z);
    }

    public Vec3 times(double k) {
        return new Vec3(x * k, y * k, z * k);
    }

    public double dot(Vec3 o) {
        return x * o.x + y * o.y + z * o.z;
    }

    public Vec3 cross(Vec3 o) {
        return new Vec3(y * o.z - z * o.y, z * o.x - x * o.z, x * o.y - y * o.x);
    }

    /** The length in metres. */
    public double length() {
        return Math.sqrt(dot(this));
    }

    /**
     * The same direction with length 1.
     *
     * @throws ArithmeticException for the zero vector, which has no direction
     */
    public Vec3 unit() {
        double l = length();
        if (l == 0) {
            throw new ArithmeticException("the zero vector has no direction");
        }
        return times(1 / l);
    }
}
