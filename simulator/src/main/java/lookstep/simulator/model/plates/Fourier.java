package lookstep.simulator.model.plates;

/** The discrete Fourier transform of a square whose side is a power of two, in place. */
final class Fourier {
    private final int side;
    private final double[] cos;
    private final double[] sin;

    Fourier(int side) {
        if (Integer.bitCount(side) != 1) {
            throw new IllegalArgumentException("a side of " + side + ": choose a power of two");
        }
        this.side = side;
        cos = new double[side / 2];
        sin = new double[side / 2];
        for (int i = 0; i < side / 2; i++) {
            cos[i] = Math.cos(2 * Math.PI * i / side);
            sin[i] = Math.sin(2 * Math.PI * i / side);
        }
    }

    /** Forth, or back with the factor one over the square's area. */
    void transform(double[] re, double[] im, boolean back) {
        for (int row = 0; row < side; row++) {
            line(re, im, row * side, 1, back);
        }
        for (int column = 0; column < side; column++) {
            line(re, im, column, side, back);
        }
        if (back) {
            double part = 1.0 / ((double) side * side);
            for (int i = 0; i < re.length; i++) {
                re[i] *= part;
                im[i] *= part;
            }
        }
    }

    private void line(double[] re, double[] im, int from, int step, boolean back) {
        for (int i = 1, j = 0; i < side; i++) {
            int bit = side >> 1;
            for (; (j & bit) != 0; bit >>= 1) {
                j ^= bit;
            }
            j ^= bit;
            if (i < j) {
                int a = from + i * step;
                int b = from + j * step;
                double t = re[a];
                re[a] = re[b];
                re[b] = t;
                t = im[a];
                im[a] = im[b];
                im[b] = t;
            }
        }
        for (int half = 1; half < side; half <<= 1) {
            int turn = side / (2 * half);
            for (int start = 0; start < side; start += 2 * half) {
                for (int k = 0; k < half; k++) {
                    int a = from + (start + k) * step;
                    int b = a + half * step;
                    double c = cos[k * turn];
                    double s = back ? sin[k * turn] : -sin[k * turn];
                    double r = re[b] * c - im[b] * s;
                    double i = re[b] * s + im[b] * c;
                    re[b] = re[a] - r;
                    im[b] = im[a] - i;
                    re[a] += r;
                    im[a] += i;
                }
            }
        }
    }
}
