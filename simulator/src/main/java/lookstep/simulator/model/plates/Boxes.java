package lookstep.simulator.model.plates;

import java.util.Arrays;

/** Makes pictures smaller by the mean of boxes, in linear light. */
final class Boxes {
    private final int fromWidth;
    private final int fromHeight;
    private final int width;
    private final int height;

    /**
     * From a size to a width.
     *
     * @throws IllegalArgumentException if it would become wider
     */
    Boxes(int fromWidth, int fromHeight, int width) {
        if (width < 1 || width > fromWidth) {
            throw new IllegalArgumentException(
                    "a width of %d for frames of %d pixels: choose 1..%d"
                            .formatted(width, fromWidth, fromWidth));
        }
        this.fromWidth = fromWidth;
        this.fromHeight = fromHeight;
        this.width = width;
        this.height = Math.max(1, (int) Math.round(fromHeight * (double) width / fromWidth));
    }

    int height() {
        return height;
    }

    /** Mean light of each box, red, green, blue. */
    float[] mean(CodedPicture picture, Response response) {
        float[][] tables = {response.table(0), response.table(1), response.table(2)};
        byte[] rgb = picture.rgb();
        float[] out = new float[width * height * 3];
        int[] column = columns();
        int[] count = new int[width];
        for (int x = 0; x < fromWidth; x++) {
            count[column[x]]++;
        }
        double[] sum = new double[width * 3];
        for (int to = 0; to < height; to++) {
            Arrays.fill(sum, 0);
            int top = edge(to, fromHeight, height);
            int end = edge(to + 1, fromHeight, height);
            for (int y = top; y < end; y++) {
                for (int x = 0, j = y * fromWidth * 3; x < fromWidth; x++, j += 3) {
                    int i = column[x] * 3;
                    sum[i] += tables[0][rgb[j] & 0xff];
                    sum[i + 1] += tables[1][rgb[j + 1] & 0xff];
                    sum[i + 2] += tables[2][rgb[j + 2] & 0xff];
                }
            }
            for (int i = 0; i < sum.length; i++) {
                out[to * width * 3 + i] = (float) (sum[i] / (count[i / 3] * (end - top)));
            }
        }
        return out;
    }

    /** Sets what has a code of this or more in any channel. */
    void mark(CodedPicture picture, int least, boolean[] marked) {
        int[] column = columns();
        for (int to = 0; to < height; to++) {
            int end = edge(to + 1, fromHeight, height);
            for (int y = edge(to, fromHeight, height); y < end; y++) {
                for (int x = 0; x < fromWidth; x++) {
                    marked[to * width + column[x]] |=
                            picture.code(x, y, 0) >= least
                                    || picture.code(x, y, 1) >= least
                                    || picture.code(x, y, 2) >= least;
                }
            }
        }
    }

    private int[] columns() {
        int[] column = new int[fromWidth];
        for (int to = 0; to < width; to++) {
            for (int x = edge(to, fromWidth, width); x < edge(to + 1, fromWidth, width); x++) {
                column[x] = to;
            }
        }
        return column;
    }

    private static int edge(int to, int from, int count) {
        return (int) ((long) to * from / count);
    }
}
