package lookstep.server.checks;

import static lookstep.server.checks.Plans.DEMO;
import static lookstep.server.checks.Plans.number;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.simulator.model.scene.Arrangement;
import lookstep.simulator.model.scene.Arrangement.Kind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class DepthCheckTest {
    private static Finding two(double depth, ShootPlan plan) {
        Shot safe = Plans.shot(plan, "safe");
        Arrangement rows =
                depth > 0.2
                        ? new Arrangement(Kind.ROWS, false, 0.55, depth - 0.15, List.of(1, 1))
                        : new Arrangement(Kind.LINE, false, 0.55, 0, List.of());
        Shot shot = Plans.changed(safe, List.of("Ines", "Petra"), rows, 50, 3);
        return DepthCheck.of(Staged.of(plan, shot)).get(0);
    }

    /**
     * Thin lens, 50 mm, 3 m, c = 0.020 mm, focus left on the nearest face: f/2.0, 3.9, 7.1, 9.8 and
     * 12.1 for depths of 0.15 to 1.2 m (computed apart with the usual formulas). Common practice
     * says the same: solo f/2.8 or wider, three f/4, five f/8, six f/10, nine f/13.
     */
    @ParameterizedTest
    @CsvSource({"0.15, 2.02", "0.3, 3.85", "0.6, 7.06", "0.9, 9.78", "1.2, 12.11"})
    void needsWhatTheTablesSay(double depth, double f) {
        assertEquals(f, number(two(depth, DEMO), "fNumberFocusOnNearest"), 0.005);
    }

    /** 50 mm, 3 m, 1 m deep, c = 0.030: best focus 3.4286 m, f/3.5236; here with 0.020. */
    @Test
    void bestFocusIsTheHarmonicMean() {
        Finding f = two(1.0, DEMO);
        assertEquals(3.4286, number(f, "bestFocusMetres"), 0.0001);
        assertEquals(3.5236 * 1.5, number(f, "fNumberBestFocus"), 0.001);
        // Nearest and farthest by hand, s = 3.3333: 2500 (1/3) / (0.02 x 3000 x 3.28333) = 4.230,
        // 2500 (2/3) / (0.02 x 4000 x 3.28333) = 6.345; the greater one rules.
        assertEquals(6.345, number(f, "fNumberFocusAThirdIn"), 0.001);
    }

    @Test
    void saysTheFNumberThatHoldsThemAndWhatItCosts() {
        Finding f = two(1.2, DEMO);
        assertEquals(Weight.GOOD.or(f.weight()), f.weight());
        assertTrue(f.says().contains("needs f/12.1, f/8 is set"), f.says());
        Mend mend = f.mend().orElseThrow();
        // f/13 exact 12.699 over 8: 2 log2 = 4/3 stops; ISO 6400 x 2.52 = 16127: 16000 on the dial.
        assertEquals(4 / 3.0, number(f, "costStops"), 1e-6);
        assertEquals(
                List.of(
                        new Change(Paths.camera("safe", "f"), 13.0),
                        new Change(Paths.camera("safe", "iso"), 16000.0)),
                mend.changes());
        assertEquals(Weight.LOOK, f.weight(), "best focus would hold them at f/6");
    }

    /** Centre near or centre far: which way the apex points changes no depth. */
    @Test
    void theApexPointsEitherWay() {
        Shot safe = Plans.shot(DEMO, "safe");
        for (boolean near : new boolean[] {true, false}) {
            Arrangement v = new Arrangement(Kind.WEDGE, near, 0.55, 0, List.of());
            Shot shot = Plans.changed(safe, safe.people(), v, 35, 4.2);
            assertEquals(
                    0.70, number(DepthCheck.of(Staged.of(DEMO, shot)).get(0), "depthMetres"), 1e-9);
        }
    }

    /** 23.5 x 15.6 mm: the diagonal is 1.534 times smaller, and so is the circle. */
    @Test
    void aSmallerSensorHasASmallerCircle() {
        ShootPlan small =
                Plans.with(
                        "kelvin: 4300}\n\n# Skin", "kelvin: 4300, sensor: [23.5, 15.6]}\n\n# Skin");
        Finding f = two(0.6, small);
        assertEquals(0.01304, number(f, "circleMillimetres"), 0.00001);
        assertEquals(7.06 * 1.534, number(f, "fNumberFocusOnNearest"), 0.01);
    }
}
