package lookstep.server.plan.edit;

import java.util.Comparator;
import java.util.List;

/** Other text for a part of a text. */
record Splice(int from, int to, String instead) {
    static Splice cut(int from, int to) {
        return new Splice(from, to, "");
    }

    static Splice in(int at, String text) {
        return new Splice(at, at, text);
    }

    /** Makes them all; those at one place in the order given. They do not overlap. */
    static String all(String text, List<Splice> splices) {
        StringBuilder out = new StringBuilder();
        int at = 0;
        List<Splice> sorted =
                splices.stream().sorted(Comparator.comparingInt(Splice::from)).toList();
        for (Splice splice : sorted) {
            out.append(text, at, Math.max(at, splice.from())).append(splice.instead());
            at = Math.max(at, splice.to());
        }
        return out.append(text, at, text.length()).toString();
    }
}
