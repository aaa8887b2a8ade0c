package lookstep.server.plan.file;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import lookstep.protocols.fixture.DimmingCurve;
import lookstep.protocols.fixture.DimmingCurve.Point;

/** A dimming curve: a word, a gamma, or what was measured. */
final class CurveWords {
    static final Map<String, DimmingCurve> WORDS = words();

    private static final int MOST_POINTS = 256;
    private static final String EXAMPLE = "[[0, 0], [50, 20], [100, 100]]";
    private static final Quantity GAMMA = new Quantity("a gamma", "", 0.2, 6, 2.2);
    private static final Quantity PERCENT = new Quantity("percent", " %", 0, 100, 50);

    private CurveWords() {}

    static Optional<DimmingCurve> read(Value value) {
        if (value.isNumber()) {
            return value.number(GAMMA).map(DimmingCurve.Power::new);
        }
        if (value.isList()) {
            return measured(value);
        }
        if (!value.isText()) {
            return value.wrong(
                    "write one of "
                            + Words.list(WORDS.keySet())
                            + ", a gamma such as 2.2, or [code %, light %] as measured: "
                            + EXAMPLE);
        }
        return value.text("linear")
                .flatMap(
                        t -> {
                            DimmingCurve curve = WORDS.get(t);
                            return curve != null
                                    ? Optional.of(curve)
                                    : value.wrong(
                                            Words.suggest(t, WORDS.keySet())
                                                    + ", a gamma such as 2.2, or "
                                                    + EXAMPLE);
                        });
    }

    private static Optional<DimmingCurve> measured(Value value) {
        int before = value.problems().errorCount();
        List<Value> items = value.list(MOST_POINTS, EXAMPLE).orElse(List.of());
        if (value.problems().errorCount() > before) {
            return Optional.empty();
        }
        List<Point> points = new ArrayList<>();
        for (Value item : items) {
            Optional<double[]> pair = item.numbers(2, PERCENT, "[50, 20]");
            if (pair.isEmpty()) {
                return Optional.empty();
            }
            Point point = new Point(pair.get()[0] / 100, pair.get()[1] / 100);
            if (!points.isEmpty() && !rises(points.get(points.size() - 1), point)) {
                item.problems()
                        .error(
                                item.at(),
                                item.path() + " does not come after the one before",
                                "write [code %, light %] with codes that rise, and light that"
                                        + " never falls");
                return Optional.empty();
            }
            points.add(point);
        }
        if (points.size() < 2
                || !points.get(0).equals(new Point(0, 0))
                || !points.get(points.size() - 1).equals(new Point(1, 1))) {
            return value.wrong("begin with [0, 0] and end with [100, 100]: " + EXAMPLE);
        }
        return Optional.of(new DimmingCurve.Table(points));
    }

    private static Map<String, DimmingCurve> words() {
        Map<String, DimmingCurve> map = new LinkedHashMap<>();
        for (DimmingCurve curve :
                List.of(DimmingCurve.LINEAR, DimmingCurve.SQUARE, DimmingCurve.SMOOTHSTEP)) {
            map.put(curve.words(), curve);
        }
        return Collections.unmodifiableMap(map);
    }

    private static boolean rises(Point before, Point point) {
        return point.code() > before.code() && point.light() >= before.light();
    }
}
