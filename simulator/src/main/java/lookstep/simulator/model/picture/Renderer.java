package lookstep.simulator.model.picture;

import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.scene.Scene;
import lookstep.simulator.model.space.Vec3;

/**
 * Makes plates: one ray a pixel, four where surfaces meet, and from each point one ray to each lamp
 * (its size gives soft shadows) past the people. What each lamp brings where nobody shades it is
 * {@link lookstep.simulator.model.scene.LampInRoom}; the room's share of it is dimmed in creases.
 * Not modelled: motion, light from one person on another, flare. The picture's longer side is the
 * longer side of the sensor; focus does not change the angle of view.
 */
public final class Renderer {
    private static final double[][] CENTRE = {{0.5, 0.5}};
    private static final double[][] SPREAD = {
        {0.375, 0.125}, {0.875, 0.375}, {0.125, 0.625}, {0.625, 0.875}
    };

    private final Shading shading;
    private final Camera camera;
    private final Vec3 forward;
    private final Vec3 right;
    private final Vec3 up;
    private final int width;
    private final int height;
    private final double perPixel;

    private Renderer(Scene scene, Camera camera, int width, int height) {
        this.camera = camera;
        this.width = width;
        this.height = height;
        this.shading = new Shading(scene);
        forward = camera.target().minus(camera.position()).unit();
        Vec3 across = forward.cross(new Vec3(0, 0, 1));
        // Straight up or down: the picture's right stays the set's right.
        right = across.length() < 1e-9 ? new Vec3(1, 0, 0) : across.unit();
        up = right.cross(forward);
        perPixel =
                camera.sensorLongMillimetres()
                        / camera.focalMillimetres()
                        / Math.max(width, height);
    }

    /**
     * Renders a scene once for all settings of its lamps.
     *
     * @param camera where it stands and its focal length; exposure does not matter yet
     * @param width pixels, 8 or more
     * @param height pixels, 8 or more
     */
    public static Plates plates(Scene scene, Camera camera, int width, int height) {
        if (width < 8 || height < 8) {
            throw new IllegalArgumentException(
                    "a picture of " + width + " x " + height + " pixels: 8 x 8 is the least");
        }
        return new Renderer(scene, camera, width, height).render(scene);
    }

    private Plates render(Scene scene) {
        int pixels = width * height;
        Hit[] hits = new Hit[pixels];
        Part[] part = new Part[pixels];
        short[] owner = new short[pixels];
        for (int p = 0; p < pixels; p++) {
            Hit hit = shading.trace(camera.position(), ray(p, CENTRE[0]));
            hits[p] = hit;
            part[p] = hit.part();
            owner[p] = (short) hit.owner();
        }
        int[] extra = new int[pixels];
        int samples = pixels;
        for (int p = 0; p < pixels; p++) {
            if (onEdge(hits, p)) {
                extra[p] = samples;
                samples += Plates.EDGE_SAMPLES - 1;
            }
        }
        int lamps = scene.luminaires().size();
        float[] reflectance = new float[samples * 3];
        float[] depth = new float[samples];
        float[][] diffuse = new float[lamps + 1][samples];
        float[][] gloss = new float[lamps + 1][samples];
        for (int p = 0; p < pixels; p++) {
            if (extra[p] == 0) {
                shading.paint(hits[p], p, reflectance);
                depth[p] = depth(hits[p], ray(p, CENTRE[0]));
                if (between(part, extra, p) == null) {
                    shading.light(ray(p, CENTRE[0]), hits[p], p, diffuse, gloss);
                }
            } else {
                for (int k = 0; k < Plates.EDGE_SAMPLES; k++) {
                    Vec3 d = ray(p, SPREAD[k]);
                    int at = k == 0 ? p : extra[p] + k - 1;
                    Hit hit = shading.trace(camera.position(), d);
                    shading.paint(hit, at, reflectance);
                    depth[at] = depth(hit, d);
                    shading.light(d, hit, at, diffuse, gloss);
                }
            }
        }
        for (int p = 0; p < pixels; p++) {
            int[] around = between(part, extra, p);
            if (around != null) {
                for (int lamp = 0; lamp <= lamps; lamp++) {
                    diffuse[lamp][p] = mean(diffuse[lamp], around);
                    gloss[lamp][p] = mean(gloss[lamp], around);
                }
            }
        }
        return new Plates(
                width,
                height,
                scene.houseLux(),
                part,
                owner,
                extra,
                depth,
                reflectance,
                diffuse,
                gloss);
    }

    /** Along the axis, for that is what focus goes by. */
    private float depth(Hit hit, Vec3 d) {
        return (float) (hit.distance() * d.dot(forward));
    }

    private Vec3 ray(int pixel, double[] within) {
        double sx = (pixel % width + within[0] - width / 2.0) * perPixel;
        double sy = (height / 2.0 - Math.floorDiv(pixel, width) - within[1]) * perPixel;
        return forward.plus(right.times(sx)).plus(up.times(sy)).unit();
    }

    /**
     * Light on bare floor and walls changes slowly, so it is worked out for every second pixel each
     * way, and the others lie between two or four of those.
     *
     * @return the pixels it lies between; null if it has to be worked out itself
     */
    private int[] between(Part[] part, int[] extra, int p) {
        int x = p % width;
        int y = Math.floorDiv(p, width);
        boolean oddX = x % 2 != 0;
        boolean oddY = y % 2 != 0;
        if (!(oddX || oddY) || (oddX && x == width - 1) || (oddY && y == height - 1)) {
            return null;
        }
        switch (part[p]) {
            case FLOOR, BACKGROUND, WALL -> {}
            default -> {
                return null;
            }
        }
        int dx = oddX ? 1 : 0;
        int dy = oddY ? width : 0;
        int[] around =
                oddX && oddY
                        ? new int[] {p - dx - dy, p + dx - dy, p - dx + dy, p + dx + dy}
                        : new int[] {p - dx - dy, p + dx + dy};
        if (extra[p] != 0) {
            return null;
        }
        for (int n : around) {
            if (part[n] != part[p] || extra[n] != 0) {
                return null;
            }
        }
        return around;
    }

    private static float mean(float[] of, int[] at) {
        float sum = 0;
        for (int i : at) {
            sum += of[i];
        }
        return sum / at.length;
    }

    private boolean onEdge(Hit[] hits, int p) {
        int x = p % width;
        return (x > 0 && differ(hits[p], hits[p - 1]))
                || (x < width - 1 && differ(hits[p], hits[p + 1]))
                || (p >= width && differ(hits[p], hits[p - width]))
                || (p + width < hits.length && differ(hits[p], hits[p + width]));
    }

    private static boolean differ(Hit a, Hit b) {
        return a.part() != b.part()
                || a.owner() != b.owner()
                || (a.part().ofFigure() && Math.abs(a.distance() - b.distance()) > 0.05);
    }
}
