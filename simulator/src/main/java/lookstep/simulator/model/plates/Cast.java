package lookstep.simulator.model.plates;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import lookstep.simulator.model.picture.Part;
import lookstep.simulator.model.picture.Plates;

/**
 * Which pixels show people, and which of those their skin. Immutable; the arrays are not copied.
 *
 * @param figure of each pixel, rows from the top: which person, counted from 0 from the left; -1
 *     for none
 * @param skin true where it is a face, neck or hand
 */
// Arrays in a record: handed on, not compared.
@SuppressWarnings("ArrayRecordComponent")
public record Cast(int width, int height, short[] figure, boolean[] skin) {
    public Cast {
        if (figure.length != width * height || skin.length != width * height) {
            throw new IllegalArgumentException(
                    "%d and %d values for %d x %d pixels"
                            .formatted(figure.length, skin.length, width, height));
        }
    }

    /**
     * Where a rendered scene has its people, sized to another picture.
     *
     * @param width pixels wanted
     * @param height pixels wanted
     */
    public static Cast of(Plates rendered, int width, int height) {
        short[] figure = new short[width * height];
        boolean[] skin = new boolean[width * height];
        TreeMap<Integer, long[]> across = new TreeMap<>();
        for (int y = 0; y < height; y++) {
            int fromY = (int) ((y + 0.5) * rendered.height() / height);
            for (int x = 0; x < width; x++) {
                int fromX = (int) ((x + 0.5) * rendered.width() / width);
                Part part = rendered.partAt(fromX, fromY);
                int p = y * width + x;
                figure[p] = -1;
                if (part.ofFigure()) {
                    figure[p] = (short) rendered.ownerAt(fromX, fromY);
                    skin[p] = part == Part.SKIN;
                    long[] sum = across.computeIfAbsent((int) figure[p], f -> new long[2]);
                    sum[0] += x;
                    sum[1]++;
                }
            }
        }
        // The scene's order is the plan's; here they are counted from the left.
        List<Integer> fromLeft =
                across.entrySet().stream()
                        .sorted(
                                Comparator.comparingDouble(
                                        e -> e.getValue()[0] / (double) e.getValue()[1]))
                        .map(Map.Entry::getKey)
                        .toList();
        for (int p = 0; p < figure.length; p++) {
            figure[p] = (short) (figure[p] < 0 ? -1 : fromLeft.indexOf((int) figure[p]));
        }
        return new Cast(width, height, figure, skin);
    }

    /** How many people it shows. */
    public int people() {
        int most = -1;
        for (short f : figure) {
            most = Math.max(most, f);
        }
        return most + 1;
    }
}
