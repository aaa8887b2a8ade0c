package lookstep.simulator.model.plates;

import java.util.Arrays;

/**
 * How much the codes of a frame vary where nothing is to be seen, measured in its evenest places:
 * grain, and what JPEG leaves of it.
 */
final class CodeNoise {
    private static final int SIDE = 8;
    private static final int BANDS = 4;

    /** Rounding to a whole code: one over the root of 12. */
    private static final double ROUNDING = 0.2887;

    private CodeNoise() {}

    /** Standard deviation in codes for each of four bands of 64 codes, green. */
    static double[] of(CodedPicture picture) {
        int across = picture.width() / SIDE;
        int down = picture.height() / SIDE;
        double[][] found = new double[BANDS][across * down];
        int[] n = new int[BANDS];
        for (int by = 0; by < down; by++) {
            for (int bx = 0; bx < across; bx++) {
                double squares = 0;
                double sum = 0;
                for (int y = by * SIDE; y < (by + 1) * SIDE; y++) {
                    int x = bx * SIDE;
                    int a = picture.code(x, y, 1);
                    int b = picture.code(x + 1, y, 1);
                    for (int i = 2; i < SIDE; i++) {
                        int c = picture.code(x + i, y, 1);
                        // A second difference leaves out what only rises: 1, -2, 1 squared is 6.
                        double bend = a - 2.0 * b + c;
                        squares += bend * bend / 6;
                        sum += c;
                        a = b;
                        b = c;
                    }
                }
                int count = SIDE * (SIDE - 2);
                int band = (int) (sum / count) / 64;
                found[band][n[band]++] = Math.sqrt(squares / count);
            }
        }
        double[] noise = new double[BANDS];
        Arrays.fill(noise, Double.NaN);
        double any = ROUNDING;
        for (int b = 0; b < BANDS; b++) {
            if (n[b] >= 20) {
                Arrays.sort(found[b], 0, n[b]);
                // The evenest third; the others have texture.
                noise[b] = Math.hypot(found[b][n[b] / 3], ROUNDING);
                any = noise[b];
            }
        }
        for (int b = 0; b < BANDS; b++) {
            noise[b] = Double.isNaN(noise[b]) ? any : noise[b];
        }
        return noise;
    }

    static double at(double[] noise, int code) {
        return noise[code / 64];
    }
}
