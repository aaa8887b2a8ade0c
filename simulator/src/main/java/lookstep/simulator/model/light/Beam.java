package lookstep.simulator.model.light;

/**
 * Relative intensity around the axis: a power of the cosine, 1 on the axis and one half at half the
 * beam angle, nothing behind. 120 degrees is a plane diffuse (Lambertian) source. Real beams have
 * sharper or softer shoulders; the power of the cosine is common practice for LED data.
 *
 * @param degrees full angle at half intensity, above 0, below 180
 */
public record Beam(double degrees) {
    /** The power of the cosine. */
    public double exponent() {
        return Math.log(0.5) / Math.log(Math.cos(Math.toRadians(degrees / 2)));
    }

    /**
     * Relative intensity 0..1.
     *
     * @param cosine of the angle off the axis
     */
    public double relative(double cosine) {
        return cosine <= 0 ? 0 : Math.pow(cosine, exponent());
    }

    /** Luminous flux in lumens of a beam with that intensity on its axis: 2 pi I / (n + 1). */
    public double fluxLumens(double candela) {
        return 2 * Math.PI * candela / (exponent() + 1);
    }
}
