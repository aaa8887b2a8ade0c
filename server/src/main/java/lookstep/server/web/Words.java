package lookstep.server.web;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.stream.Collectors;
import lookstep.simulator.model.scene.Arrangement;

/** Numbers and arrangements as they are said on a set. */
final class Words {
    private Words() {}

    /** At most two decimals, none that are not needed. */
    static String number(double value) {
        return BigDecimal.valueOf(value)
                .setScale(2, RoundingMode.HALF_UP)
                .stripTrailingZeros()
                .toPlainString();
    }

    static String arrangement(Arrangement a) {
        return switch (a.kind()) {
            case LINE -> "line";
            case WEDGE -> a.apexNear() ? "V, middle nearest" : "V, middle farthest";
            case ZIGZAG -> "W";
            case ROWS ->
                    "rows, front to back: "
                            + a.rows().stream()
                                    .map(String::valueOf)
                                    .collect(Collectors.joining(" and "));
            case CLUSTER -> "close together";
            case SOLO -> "alone";
        };
    }
}
