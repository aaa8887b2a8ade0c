package lookstep.simulator.model.scene;

/**
 * Diffuse reflectance in linear red, green, blue of sRGB primaries, each 0..1. Under neutral light
 * a surface shows just these values.
 */
public record Reflectance(double r, double g, double b) {
    public Reflectance {
        if (!(r >= 0 && r <= 1 && g >= 0 && g <= 1 && b >= 0 && b <= 1)) {
            throw new IllegalArgumentException(
                    "reflectance (" + r + ", " + g + ", " + b + "): each must be 0 to 1");
        }
    }

    /** The same in all colours: 0.18 is the grey card. */
    public static Reflectance grey(double reflectance) {
        return new Reflectance(reflectance, reflectance, reflectance);
    }

    /** Share of neutral light given back, weighted as the eye does (IEC 61966-2-1 luminance). */
    public double luminous() {
        return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    }
}
