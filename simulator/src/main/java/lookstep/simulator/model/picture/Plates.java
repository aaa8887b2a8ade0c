package lookstep.simulator.model.picture;

import java.util.List;
import lookstep.simulator.model.colour.WhiteBalance;
import lookstep.simulator.model.colour.Xyz;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.optics.Exposure;

/**
 * One scene from one camera position, for any setting of its lamps. Each sample holds, for every
 * lamp, the illuminance in lux that one candela brings (and what its gloss adds), for the house
 * light the illuminance for each lux, and how the surface reflects. Pixels on an edge have four
 * samples, others one. Unchanging after rendering, so it may be shared between threads.
 */
public final class Plates {
    /** Samples for each edge pixel; the first sits at the pixel's own index. */
    static final int EDGE_SAMPLES = 4;

    private final int width;
    private final int height;
    private final int lamps;
    private final double houseLux;
    private final Part[] part;
    private final short[] owner;
    private final int[] extra;
    private final float[] depth;
    private final double nearest;
    private final double farthest;
    private final float[] reflectance;
    private final float[][] diffuse;
    private final float[][] gloss;

    /**
     * @param part what each pixel shows
     * @param owner figure or lamp for each pixel, -1 for neither
     * @param extra index of the second sample of each pixel, 0 if it has one only
     * @param depth of each sample along the camera's axis, metres
     * @param reflectance three for each sample
     * @param diffuse lux for each candela: [lamp][sample]; the house (lux for each lux) is last
     * @param gloss the same for mirrored light, already in terms of a white surface
     */
    Plates(
            int width,
            int height,
            double houseLux,
            Part[] part,
            short[] owner,
            int[] extra,
            float[] depth,
            float[] reflectance,
            float[][] diffuse,
            float[][] gloss) {
        this.width = width;
        this.height = height;
        this.lamps = diffuse.length - 1;
        this.houseLux = houseLux;
        this.part = part;
        this.owner = owner;
        this.extra = extra;
        this.depth = depth;
        double near = Double.POSITIVE_INFINITY;
        double far = 0;
        for (float d : depth) {
            near = Math.min(near, d);
            far = Math.max(far, d);
        }
        this.nearest = near;
        this.farthest = far;
        this.reflectance = reflectance;
        this.diffuse = diffuse;
        this.gloss = gloss;
    }

    public int width() {
        return width;
    }

    public int height() {
        return height;
    }

    /** What the middle of a pixel shows; x from the left, y from the top. */
    public Part partAt(int x, int y) {
        return part[y * width + x];
    }

    /** Which figure (or lamp, for {@link Part#LAMP}) a pixel shows; -1 for neither. */
    public int ownerAt(int x, int y) {
        return owner[y * width + x];
    }

    /** Illuminance in lux that one candela of a lamp brings to what a pixel shows. */
    public double luxPerCandela(int lamp, int x, int y) {
        return diffuse[lamp][y * width + x];
    }

    /** How far along the camera's axis that lies which a pixel shows, metres. */
    public double depthMetres(int x, int y) {
        return depth[y * width + x];
    }

    /** How many pixels show a part, of any owner. */
    public int count(Part wanted) {
        int n = 0;
        for (Part p : part) {
            if (p == wanted) {
                n++;
            }
        }
        return n;
    }

    /** True where a pixel lies on an edge and mixes several surfaces. */
    boolean mixed(int pixel) {
        return extra[pixel] != 0;
    }

    boolean shows(int pixel, int figure) {
        return owner[pixel] == figure && part[pixel].ofFigure();
    }

    /**
     * The picture with the lamps set to these intensities.
     *
     * @param intensities for each luminaire of the scene in its order; Y is candela on the axis
     * @param houseWhite colour of the house light; Y 1 is the scene's house light, 0 is dark
     * @param settings exposure, white balance and focus; where it stands was settled when rendering
     * @throws IllegalArgumentException if the number of intensities is not that of the lamps
     */
    public LinearPicture compose(List<Xyz> intensities, Xyz houseWhite, Camera settings) {
        if (intensities.size() != lamps) {
            throw new IllegalArgumentException(
                    "the scene has "
                            + lamps
                            + " lamps, but "
                            + intensities.size()
                            + " intensities were given");
        }
        WhiteBalance balance = new WhiteBalance(settings.whiteBalanceKelvin());
        double scale = Exposure.scale(settings);
        int samples = reflectance.length / 3;
        float[] sum = new float[samples * 3];
        float[] mirrored = new float[samples * 3];
        for (int lamp = 0; lamp <= lamps; lamp++) {
            Xyz light = lamp < lamps ? intensities.get(lamp) : houseWhite.times(houseLux);
            if (light.y() <= 0) {
                continue;
            }
            double[] rgb = balance.linearSrgb(light.times(scale));
            float r = (float) rgb[0];
            float g = (float) rgb[1];
            float b = (float) rgb[2];
            float[] d = diffuse[lamp];
            float[] m = gloss[lamp];
            for (int i = 0, j = 0; i < samples; i++, j += 3) {
                sum[j] += d[i] * r;
                sum[j + 1] += d[i] * g;
                sum[j + 2] += d[i] * b;
                if (m[i] != 0) {
                    mirrored[j] += m[i] * r;
                    mirrored[j + 1] += m[i] * g;
                    mirrored[j + 2] += m[i] * b;
                }
            }
        }
        for (int j = 0; j < sum.length; j++) {
            sum[j] = sum[j] * reflectance[j] + mirrored[j];
        }
        Focus focus = new Focus(settings, Math.max(width, height));
        if (focus.blurs(nearest, farthest)) {
            return new LinearPicture(this, new Defocus(width, height, extra, depth, focus).of(sum));
        }
        float[] out = new float[width * height * 3];
        System.arraycopy(sum, 0, out, 0, out.length);
        for (int p = 0; p < extra.length; p++) {
            if (extra[p] != 0) {
                for (int c = 0; c < 3; c++) {
                    float total = sum[p * 3 + c];
                    for (int k = 0; k < EDGE_SAMPLES - 1; k++) {
                        total += sum[(extra[p] + k) * 3 + c];
                    }
                    out[p * 3 + c] = total / EDGE_SAMPLES;
                }
            }
        }
        return new LinearPicture(this, out);
    }
}
