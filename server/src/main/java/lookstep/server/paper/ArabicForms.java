package lookstep.server.paper;

import java.text.Normalizer;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Arabic letters in the shape that their neighbours ask for. Fonts do this by themselves only where
 * something reads their tables; Unicode has the shapes as letters of their own too, in blocks that
 * list isolated, final, initial and medial (The Unicode Standard, 9.2 and the code charts of FB50
 * and FE70). Lam and alef stay two letters.
 */
final class ArabicForms {
    private static final int ISOLATED = 0;
    private static final int FINAL = 1;
    private static final int INITIAL = 2;
    private static final int MEDIAL = 3;
    private static final int KASHIDA = 0x0640;

    /** By letter; four shapes if it joins on both sides, two if only to the one before. */
    private static final Map<Integer, List<Integer>> SHAPES = shapes();

    private ArabicForms() {}

    private static Map<Integer, List<Integer>> shapes() {
        Map<Integer, List<Integer>> all = new HashMap<>();
        collect(all, 0xFB50, 0xFBB1);
        collect(all, 0xFE80, 0xFEF4);
        return all;
    }

    private static void collect(Map<Integer, List<Integer>> all, int from, int to) {
        for (int shape = from; shape <= to; shape++) {
            String letter = Normalizer.normalize(Character.toString(shape), Normalizer.Form.NFKC);
            if (letter.codePointCount(0, letter.length()) == 1) {
                all.computeIfAbsent(letter.codePointAt(0), l -> new ArrayList<>()).add(shape);
            }
        }
    }

    /** The same text, in the order in which it is read. */
    static String joined(String text) {
        int[] points = text.codePoints().toArray();
        StringBuilder out = new StringBuilder();
        for (int i = 0; i < points.length; i++) {
            List<Integer> shapes = SHAPES.getOrDefault(points[i], List.of());
            boolean before = shapes.size() >= 2 && joinsOnward(neighbour(points, i, -1));
            boolean after = shapes.size() == 4 && joinsBack(neighbour(points, i, 1));
            int shape = before && after ? MEDIAL : before ? FINAL : after ? INITIAL : ISOLATED;
            out.appendCodePoint(shape == ISOLATED ? points[i] : shapes.get(shape));
        }
        return out.toString();
    }

    private static boolean joinsOnward(int point) {
        return point == KASHIDA || SHAPES.getOrDefault(point, List.of()).size() == 4;
    }

    private static boolean joinsBack(int point) {
        return point == KASHIDA || SHAPES.getOrDefault(point, List.of()).size() >= 2;
    }

    /** The next letter on that side, vowel signs left out; 0 if there is none. */
    private static int neighbour(int[] points, int from, int step) {
        int i = from + step;
        while (i >= 0
                && i < points.length
                && Character.getType(points[i]) == Character.NON_SPACING_MARK) {
            i += step;
        }
        return i >= 0 && i < points.length ? points[i] : 0;
    }
}
