package lookstep.simulator.model.picture;

/**
 * Fills what a picture does not know from what lies around: means of ever larger squares, then back
 * down where something is missing.
 */
final class HoleFill {
    private static final int CHANNELS = 4;

    private HoleFill() {}

    /**
     * @param rgba three sums and how much of the pixel they are, 0..1; full afterwards if anything
     *     is known
     */
    static void fill(float[] rgba, int width, int height) {
        if (width <= 1 && height <= 1) {
            return;
        }
        int w = (width + 1) / 2;
        int h = (height + 1) / 2;
        float[] half = new float[w * h * CHANNELS];
        for (int y = 0; y < height; y++) {
            for (int x = 0; x < width; x++) {
                int to = (y / 2 * w + x / 2) * CHANNELS;
                int from = (y * width + x) * CHANNELS;
                for (int c = 0; c < CHANNELS; c++) {
                    half[to + c] += rgba[from + c];
                }
            }
        }
        boolean holes = false;
        for (int i = 3; i < half.length; i += CHANNELS) {
            float known = half[i];
            if (known > 1) {
                for (int c = 0; c < CHANNELS; c++) {
                    half[i - 3 + c] /= known;
                }
            }
            holes |= half[i] < 1;
        }
        if (holes) {
            fill(half, w, h);
        }
        for (int y = 0; y < height; y++) {
            for (int x = 0; x < width; x++) {
                int at = (y * width + x) * CHANNELS;
                float missing = 1 - rgba[at + 3];
                if (missing > 0) {
                    int from = (y / 2 * w + x / 2) * CHANNELS;
                    for (int c = 0; c < CHANNELS; c++) {
                        rgba[at + c] += missing * half[from + c];
                    }
                }
            }
        }
    }
}
