package lookstep.protocols.gdtf;

import java.util.Optional;

/**
 * ColorCIE (table 1): CIE 1931.
 *
 * @param x chromaticity, 0..1
 * @param y chromaticity, above 0; x + y at most 1
 * @param luminance relative Y, 0 or more; for an emitter relative to its beam's luminous flux
 */
public record ColorCie(double x, double y, double luminance) {
    /** A deep red of four digits may come to a little more than 1. */
    private static final double ROUNDED = 1e-3;

    public ColorCie {
        // written so that NaN is refused as well
        if (!(x >= 0 && y > 0 && x + y <= 1 && luminance >= 0)) {
            throw new IllegalArgumentException(
                    "%s,%s,%s is no CIE 1931 colour".formatted(x, y, luminance));
        }
    }

    /** From "x,y,Y"; empty if that is none. */
    static Optional<ColorCie> of(String text) {
        String[] parts = text.split(",", -1);
        if (parts.length != 3) {
            return Optional.empty();
        }
        double[] n = new double[3];
        for (int i = 0; i < 3; i++) {
            Optional<Double> number = Fields.number(parts[i]);
            if (number.isEmpty()) {
                return Optional.empty();
            }
            n[i] = number.get();
        }
        boolean colour = n[0] >= 0 && n[1] > 0 && n[0] + n[1] <= 1 + ROUNDED && n[2] >= 0;
        double y = Math.min(n[1], 1 - n[0]);
        return colour && y > 0 ? Optional.of(new ColorCie(n[0], y, n[2])) : Optional.empty();
    }
}
