package lookstep.simulator.model.plates;

import java.awt.image.BufferedImage;
import java.awt.image.DataBufferInt;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import lookstep.simulator.model.colour.DisplayRange;
import lookstep.simulator.model.colour.WhiteBalance;

/**
 * Frames with known light, all of one camera position, from which any look is summed in linear
 * light (Debevec and others, Acquiring the Reflectance Field of a Human Face, SIGGRAPH 2000).
 * Immutable, so it may be shared between threads.
 */
public final class PlateStack {
    /** From here on a pixel counts as burnt: what it stands for is that or more. */
    static final int BURNT = 254;

    private static final int BAND_ROWS = 32;
    private static final int DOUBT_STRIDE = 4;

    /** A burnt frame that brings less than this share of white does no harm. */
    private static final double HARMLESS = 0.01;

    private final Response response;
    private final double kelvin;
    private final List<Taken> frames;
    private final LevelSystem system;
    private final double[][] codeNoise;

    /**
     * A frame and its light.
     *
     * @param levels of each emitter of the rig that were on, 0..1; the house is always on
     * @param scale exposure scale of the frame
     */
    // An array in a record: handed on, not compared.
    @SuppressWarnings("ArrayRecordComponent")
    public record Taken(CodedPicture picture, double[] levels, double scale) {}

    /**
     * What is uncertain in a picture from plates.
     *
     * @param burntShare share of the pixels that hang on a burnt one of a plate
     * @param noiseStopsUnderWhite grey that is as large as its noise, stops; of the darker half of
     *     the picture, where noise is seen first
     */
    public record Doubt(double burntShare, double noiseStopsUnderWhite) {}

    private PlateStack(Response response, double kelvin, List<Taken> frames, LevelSystem system) {
        this.response = response;
        this.kelvin = kelvin;
        this.frames = frames;
        this.system = system;
        this.codeNoise =
                frames.stream().map(f -> CodeNoise.of(f.picture())).toArray(double[][]::new);
    }

    /**
     * From frames; see {@link #notTold} for which are needed.
     *
     * @param kelvin the white balance that all frames were taken with
     * @throws IllegalArgumentException if sizes differ, or the frames do not tell all emitters
     *     apart; the message says which
     */
    public static PlateStack of(Response response, double kelvin, List<Taken> frames) {
        return of(response, kelvin, frames, false);
    }

    /**
     * The same, of lights that may not light each of their emitters by itself.
     *
     * @param tied true if emitters that only ever change together in the frames are told as one;
     *     then a picture in which they do not is wrong
     * @throws IllegalArgumentException if sizes differ, or some emitter is in no frame
     */
    public static PlateStack of(
            Response response, double kelvin, List<Taken> frames, boolean tied) {
        if (frames.isEmpty()) {
            throw new IllegalArgumentException("no frames: take the house alone first");
        }
        Taken first = frames.get(0);
        for (Taken f : frames) {
            if (f.picture().width() != first.picture().width()
                    || f.picture().height() != first.picture().height()) {
                throw new IllegalArgumentException(
                        "frames of %d x %d and %d x %d pixels: take all alike"
                                .formatted(
                                        first.picture().width(),
                                        first.picture().height(),
                                        f.picture().width(),
                                        f.picture().height()));
            }
            if (f.levels().length != first.levels().length) {
                throw new IllegalArgumentException(
                        "frames with levels of %d and of %d emitters"
                                .formatted(first.levels().length, f.levels().length));
            }
            if (!(f.scale() > 0)) {
                throw new IllegalArgumentException("an exposure scale of " + f.scale());
            }
        }
        LevelSystem system =
                new LevelSystem(
                        frames.stream().map(Taken::levels).toList(),
                        frames.stream().mapToDouble(Taken::scale).toArray(),
                        tied);
        return new PlateStack(response, kelvin, List.copyOf(frames), system);
    }

    /**
     * Which emitters frames with these levels do not tell apart, so that names can be put to them.
     *
     * @return the places of the emitters in the levels, from 0; empty if all is told
     */
    public static List<Integer> notTold(List<double[]> levels) {
        return LevelSystem.notTold(levels).stream().map(column -> column - 1).toList();
    }

    public int width() {
        return frames.get(0).picture().width();
    }

    public int height() {
        return frames.get(0).picture().height();
    }

    /**
     * As the camera would write it; TYPE_INT_RGB.
     *
     * @param house share of the house light, 1 as it is
     * @param levels of each emitter, 0..1
     * @param scale exposure scale wanted
     * @param toKelvin white balance wanted
     */
    public BufferedImage picture(double house, double[] levels, double scale, double toKelvin) {
        int w = width();
        int h = height();
        List<byte[]> codes = new ArrayList<>();
        List<float[][]> tables = new ArrayList<>();
        double[] weights = system.weights(house, checked(levels));
        for (int k = 0; k < weights.length; k++) {
            if (weights[k] != 0) {
                codes.add(frames.get(k).picture().rgb());
                tables.add(tables(weights[k] * scale / frames.get(k).scale()));
            }
        }
        float[] balance = balance(toKelvin);
        BufferedImage image = new BufferedImage(w, h, BufferedImage.TYPE_INT_RGB);
        int[] out = ((DataBufferInt) image.getRaster().getDataBuffer()).getData();
        IntStream.range(0, (h + BAND_ROWS - 1) / BAND_ROWS)
                .parallel()
                .forEach(
                        band -> {
                            float[] row = new float[w * 3];
                            int end = Math.min(h, (band + 1) * BAND_ROWS);
                            for (int y = band * BAND_ROWS; y < end; y++) {
                                Arrays.fill(row, 0);
                                for (int k = 0; k < codes.size(); k++) {
                                    add(row, codes.get(k), y * w * 3, tables.get(k));
                                }
                                if (balance.length > 0) {
                                    turn(row, balance);
                                }
                                write(row, out, y * w);
                            }
                        });
        return image;
    }

    private double[] checked(double[] levels) {
        if (levels.length != frames.get(0).levels().length) {
            throw new IllegalArgumentException(
                    "%d levels for %d emitters"
                            .formatted(levels.length, frames.get(0).levels().length));
        }
        return levels;
    }

    private float[][] tables(double weight) {
        float[][] scaled = new float[3][Response.CODES];
        for (int c = 0; c < 3; c++) {
            float[] linear = response.table(c);
            for (int z = 0; z < linear.length; z++) {
                scaled[c][z] = (float) (weight * linear[z]);
            }
        }
        return scaled;
    }

    /** Nine numbers, rows first; none if the balance stays. */
    private float[] balance(double toKelvin) {
        if (toKelvin == kelvin) {
            return new float[0];
        }
        double[][] m = new WhiteBalance(toKelvin).matrixFrom(new WhiteBalance(kelvin));
        float[] flat = new float[9];
        for (int i = 0; i < 9; i++) {
            flat[i] = (float) m[i / 3][i % 3];
        }
        return flat;
    }

    private static void add(float[] row, byte[] codes, int from, float[][] tables) {
        float[] red = tables[0];
        float[] green = tables[1];
        float[] blue = tables[2];
        for (int i = 0, j = from; i < row.length; i += 3, j += 3) {
            row[i] += red[codes[j] & 0xff];
            row[i + 1] += green[codes[j + 1] & 0xff];
            row[i + 2] += blue[codes[j + 2] & 0xff];
        }
    }

    private static void turn(float[] row, float[] m) {
        for (int i = 0; i < row.length; i += 3) {
            float r = row[i];
            float g = row[i + 1];
            float b = row[i + 2];
            row[i] = m[0] * r + m[1] * g + m[2] * b;
            row[i + 1] = m[3] * r + m[4] * g + m[5] * b;
            row[i + 2] = m[6] * r + m[7] * g + m[8] * b;
        }
    }

    private void write(float[] row, int[] out, int at) {
        byte[] red = response.codes(0);
        byte[] green = response.codes(1);
        byte[] blue = response.codes(2);
        float steps = Response.STEPS - 1;
        for (int i = 0, p = at; i < row.length; i += 3, p++) {
            DisplayRange.fit(row, i);
            out[p] =
                    (red[(int) ((float) Math.sqrt(row[i]) * steps + 0.5f)] & 0xff) << 16
                            | (green[(int) ((float) Math.sqrt(row[i + 1]) * steps + 0.5f)] & 0xff)
                                    << 8
                            | (blue[(int) ((float) Math.sqrt(row[i + 2]) * steps + 0.5f)] & 0xff);
        }
    }

    /**
     * How far {@link #picture} is to be trusted. A pixel that is burnt in a frame stands for that
     * light or more; it counts unless it comes out white anyway.
     */
    public Doubt doubt(double house, double[] levels, double scale) {
        double[] weights = system.weights(house, checked(levels));
        int w = width();
        int burnt = 0;
        int n = 0;
        double[] light = new double[(w / DOUBT_STRIDE + 1) * (height() / DOUBT_STRIDE + 1)];
        double[] noise = new double[light.length];
        for (int y = 0; y < height(); y += DOUBT_STRIDE) {
            for (int x = 0; x < w; x += DOUBT_STRIDE) {
                boolean open = false;
                boolean less = false;
                double whitest = 0;
                for (int c = 0; c < 3; c++) {
                    double sum = 0;
                    double variance = 0;
                    for (int k = 0; k < weights.length; k++) {
                        if (weights[k] != 0) {
                            double weight = weights[k] * scale / frames.get(k).scale();
                            int z = frames.get(k).picture().code(x, y, c);
                            sum += weight * response.linear(c, z);
                            double each =
                                    weight * response.step(c, z) * CodeNoise.at(codeNoise[k], z);
                            variance += each * each;
                            if (z >= BURNT && Math.abs(weight) > HARMLESS) {
                                open = true;
                                less |= weight < 0;
                            }
                        }
                    }
                    whitest = Math.max(whitest, sum);
                    if (c == 1) {
                        light[n] = sum;
                        noise[n] = Math.sqrt(variance);
                    }
                }
                burnt += open && (less || whitest < 1) ? 1 : 0;
                n++;
            }
        }
        double[] sorted = Arrays.copyOf(light, n);
        Arrays.sort(sorted);
        double median = sorted[n / 2];
        double sum = 0;
        int counted = 0;
        for (int i = 0; i < n; i++) {
            if (light[i] <= median) {
                sum += noise[i] * noise[i];
                counted++;
            }
        }
        double sigma = Math.sqrt(sum / Math.max(1, counted));
        return new Doubt(burnt / (double) n, -Math.log(Math.max(1e-6, sigma)) / Math.log(2));
    }

    /**
     * In linear light, scaled down to this width: the mean of the light, not of the codes.
     *
     * @throws IllegalArgumentException if it is wider than the frames
     */
    public LinearPlates linear(int width) {
        Boxes boxes = new Boxes(width(), height(), width);
        int emitters = frames.get(0).levels().length;
        double scale = frames.get(0).scale();
        float[][] reduced = new float[frames.size()][];
        for (int k = 0; k < reduced.length; k++) {
            reduced[k] = boxes.mean(frames.get(k).picture(), response);
        }
        float[][] planes = new float[emitters + 1][width * boxes.height() * 3];
        for (int p = 0; p <= emitters; p++) {
            double[] levels = new double[emitters];
            if (p > 0) {
                levels[p - 1] = 1;
            }
            double[] weights = system.weights(p == 0 ? 1 : 0, levels);
            for (int k = 0; k < reduced.length; k++) {
                float weight = (float) (weights[k] * scale / frames.get(k).scale());
                if (weight != 0) {
                    for (int i = 0; i < planes[p].length; i++) {
                        planes[p][i] += weight * reduced[k][i];
                    }
                }
            }
        }
        return new LinearPlates(width, boxes.height(), kelvin, scale, planes);
    }

    /**
     * A later frame of the same camera in linear light, scaled down alike.
     *
     * @return red, green, blue of every pixel, rows from the top; 1 is the light of code 255
     * @throws IllegalArgumentException if it is not as large as the plates, or too small
     */
    public float[] linear(CodedPicture frame, int width) {
        if (frame.width() != width() || frame.height() != height()) {
            throw new IllegalArgumentException(
                    "a frame of %d x %d pixels for plates of %d x %d"
                            .formatted(frame.width(), frame.height(), width(), height()));
        }
        return new Boxes(width(), height(), width).mean(frame, response);
    }

    /**
     * Which pixels of {@link #linear} have a burnt one in any frame, rows from the top: what they
     * hold is too small there.
     */
    public boolean[] burnt(int width) {
        Boxes boxes = new Boxes(width(), height(), width);
        boolean[] burnt = new boolean[width * boxes.height()];
        for (Taken frame : frames) {
            boxes.mark(frame.picture(), BURNT, burnt);
        }
        return burnt;
    }
}
