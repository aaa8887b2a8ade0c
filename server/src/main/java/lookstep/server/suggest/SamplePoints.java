package lookstep.server.suggest;

import java.util.ArrayList;
import java.util.List;
import lookstep.simulator.model.plates.Cast;

/**
 * Where a picture is looked at: a thumbnail, the people's skin, and their outlines. Each sample is
 * the mean of some pixels, so the samples of a sum of pictures are the sum of their samples. Read
 * once for each plane; everything after works on samples.
 */
final class SamplePoints {
    /** The thumbnail that looks are compared by. */
    static final int WIDE = 24;

    static final int HIGH = 16;

    /** Means of each person: see {@link #of(int, Mean)}. */
    enum Mean {
        SKIN(0),
        LEFT(1),
        RIGHT(2),
        UPPER(3),
        LOWER(4),
        EDGE(5);

        private final int at;

        Mean(int at) {
            this.at = at;
        }
    }

    private static final int MEANS = Mean.values().length;
    private static final int MOST_SKIN = 40;
    private static final int MOST_OUTLINE = 48;

    private final int people;
    private final int[][] pixels;
    private final int[] skinOf;
    private final int[] outlineOf;
    private final int insides;
    private final int skinAt;
    private final int outlineAt;
    private final int thumbnailAt;
    private final float[] peopleShare = new float[WIDE * HIGH];

    /**
     * @throws IllegalArgumentException if the picture is smaller than the thumbnail
     */
    SamplePoints(Cast cast) {
        if (cast.width() < WIDE || cast.height() < HIGH) {
            throw new IllegalArgumentException(
                    "plates of %d x %d pixels: %d x %d is the least"
                            .formatted(cast.width(), cast.height(), WIDE, HIGH));
        }
        int most = -1;
        for (short f : cast.figure()) {
            most = Math.max(most, f);
        }
        people = most + 1;
        Outlines outlines = new Outlines(cast);
        insides = outlines.insides();
        List<int[]> all = new ArrayList<>();
        List<List<int[]>> edges = new ArrayList<>();
        for (int p = 0; p < people; p++) {
            edges.add(thinned(outlines.of(p), MOST_OUTLINE));
            means(cast, p, edges.get(p), all);
        }
        skinAt = all.size();
        List<Integer> whose = new ArrayList<>();
        for (int p = 0; p < people; p++) {
            for (int[] one : thinned(skin(cast, p), MOST_SKIN)) {
                all.add(one);
                whose.add(p);
            }
        }
        skinOf = ints(whose);
        outlineAt = all.size();
        whose.clear();
        for (int p = 0; p < people; p++) {
            for (int[] edge : edges.get(p)) {
                whose.add(p);
                for (int k = 0; k < insides; k++) {
                    all.add(new int[] {edge[k]});
                }
                int[] outside = new int[edge.length - insides];
                System.arraycopy(edge, insides, outside, 0, outside.length);
                all.add(outside);
            }
        }
        outlineOf = ints(whose);
        thumbnailAt = all.size();
        thumbnail(cast, all);
        pixels = all.toArray(new int[0][]);
    }

    private static int[] ints(List<Integer> list) {
        return list.stream().mapToInt(Integer::intValue).toArray();
    }

    private static <T> List<T> thinned(List<T> all, int most) {
        if (all.size() <= most) {
            return all;
        }
        List<T> kept = new ArrayList<>();
        for (int i = 0; i < most; i++) {
            kept.add(all.get((int) ((long) i * all.size() / most)));
        }
        return kept;
    }

    private static List<int[]> skin(Cast cast, int person) {
        List<int[]> found = new ArrayList<>();
        for (int i = 0; i < cast.skin().length; i++) {
            if (cast.skin()[i] && cast.figure()[i] == person) {
                found.add(new int[] {i});
            }
        }
        return found;
    }

    private void means(Cast cast, int person, List<int[]> edges, List<int[]> into) {
        List<Integer> body = new ArrayList<>();
        double sumX = 0;
        double sumY = 0;
        for (int i = 0; i < cast.figure().length; i++) {
            if (cast.figure()[i] == person) {
                body.add(i);
                sumX += i % cast.width();
                sumY += Math.floorDiv(i, cast.width());
            }
        }
        double middleX = sumX / Math.max(1, body.size());
        double middleY = sumY / Math.max(1, body.size());
        into.add(ints(skin(cast, person).stream().map(one -> one[0]).toList()));
        into.add(ints(body.stream().filter(i -> i % cast.width() < middleX).toList()));
        into.add(ints(body.stream().filter(i -> i % cast.width() >= middleX).toList()));
        into.add(
                ints(body.stream().filter(i -> Math.floorDiv(i, cast.width()) < middleY).toList()));
        into.add(
                ints(
                        body.stream()
                                .filter(i -> Math.floorDiv(i, cast.width()) >= middleY)
                                .toList()));
        into.add(ints(edges.stream().map(edge -> edge[0]).toList()));
    }

    private void thumbnail(Cast cast, List<int[]> into) {
        for (int v = 0; v < HIGH; v++) {
            for (int u = 0; u < WIDE; u++) {
                List<Integer> block = new ArrayList<>();
                int with = 0;
                for (int y = v * cast.height() / HIGH; y < (v + 1) * cast.height() / HIGH; y++) {
                    for (int x = u * cast.width() / WIDE; x < (u + 1) * cast.width() / WIDE; x++) {
                        block.add(y * cast.width() + x);
                        with += cast.figure()[y * cast.width() + x] >= 0 ? 1 : 0;
                    }
                }
                peopleShare[v * WIDE + u] = (float) with / block.size();
                into.add(ints(block));
            }
        }
    }

    /** Red, green, blue of each sample. */
    float[] of(float[] plane) {
        float[] out = new float[pixels.length * 3];
        for (int s = 0; s < pixels.length; s++) {
            int[] of = pixels[s];
            double r = 0;
            double g = 0;
            double b = 0;
            for (int p : of) {
                r += plane[p * 3];
                g += plane[p * 3 + 1];
                b += plane[p * 3 + 2];
            }
            int n = Math.max(1, of.length);
            out[s * 3] = (float) (r / n);
            out[s * 3 + 1] = (float) (g / n);
            out[s * 3 + 2] = (float) (b / n);
        }
        return out;
    }

    int people() {
        return people;
    }

    /** How many samples: a third of the values of {@link #of(float[])}. */
    int count() {
        return pixels.length;
    }

    /** Index of a person's mean. */
    int of(int person, Mean mean) {
        return person * MEANS + mean.at;
    }

    /** Whether any pixel shows that of the person. */
    boolean shows(int person, Mean mean) {
        return pixels[of(person, mean)].length > 0;
    }

    /** Samples of skin: the first, and whose each is. */
    int skinAt() {
        return skinAt;
    }

    int skinOf(int skin) {
        return skinOf[skin];
    }

    int skins() {
        return skinOf.length;
    }

    /**
     * Outlines: the first sample; each has {@link #insides()} samples from the edge inwards and
     * then what is behind.
     */
    int outlineAt() {
        return outlineAt;
    }

    int outlines() {
        return outlineOf.length;
    }

    int outlineOf(int outline) {
        return outlineOf[outline];
    }

    int insides() {
        return insides;
    }

    /** The thumbnail's first sample; rows from the top. */
    int thumbnailAt() {
        return thumbnailAt;
    }

    /** Share of people in a sample of the thumbnail, 0..1. */
    float peopleShare(int thumb) {
        return peopleShare[thumb];
    }
}
