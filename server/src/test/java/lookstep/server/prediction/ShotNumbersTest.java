package lookstep.server.prediction;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Map;
import lookstep.server.TestPlans;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.House;
import lookstep.server.plan.Look;
import lookstep.server.plan.ShootPlan;
import org.junit.jupiter.api.Test;

/** Worked out by hand. */
class ShotNumbersTest {
    private final ShootPlan one = TestPlans.oneDimmer();

    /**
     * 100 cd in a beam of 40 degrees at (0, -2, 1.5), level; eyes at 0.936 x 1.7 = 1.5912 m.
     *
     * <pre>
     * d^2 = 2^2 + 0.0912^2 = 4.00832    cos = 2 / 2.00208 = 0.998962
     * n = ln 0.5 / ln cos 20 = 11.1434   cos^n = 0.988493
     * direct = 100 x 0.988493 x 0.998962 / 4.00832 = 24.6355 lx
     * flux = 2 pi x 100 / 12.1434 = 51.742 lm
     * room: 2 x (72 + 17 x 4) = 280 m2, mean (32 x 0.04 + 72 x 0.1 + 176 x 0.2) / 280 = 0.156
     * indirect = 51.742 x 0.156 / (280 x 0.844) = 0.0342 lx; the house has 20 lx
     * </pre>
     */
    @Test
    void luxOnAFace() {
        assertEquals(44.6696, ShotNumbers.of(one, one.shots().get(0)).faceLux().get(0), 0.0005);
    }

    /**
     * ISO 2720, C = 250: f/8, 1/128 s (behind 1/125 on the dial), ISO 3200 is metered for 250 x 64
     * x 128 / 3200 = 640 lx. log2(44.6696 / 640) = -3.8407.
     */
    @Test
    void stopsUnder() {
        assertEquals(-3.8407, ShotNumbers.of(one, one.shots().get(0)).stopsOver(), 0.0005);
    }

    @Test
    void aDarkRoomHasNoStops() {
        Look off = one.looks().get(0);
        ShootPlan dark =
                new ShootPlan(
                        one.title(),
                        one.place(),
                        new House(0, 3500),
                        one.windowSeconds(),
                        one.people(),
                        one.rig(),
                        List.of(
                                new Look(
                                        off.name(),
                                        new CameraSettings(8, 1 / 125.0, 3200, 4000),
                                        0,
                                        "lamp",
                                        Map.of("lamp", TestPlans.percent(0, 4000)))),
                        one.shots());
        ShotNumbers numbers = ShotNumbers.of(dark, dark.shots().get(0));
        assertEquals(List.of(0.0), numbers.faceLux());
        assertEquals(Double.NEGATIVE_INFINITY, numbers.stopsOver());
    }

    /**
     * The far limit is s (H - f) / (H - s), with H = f^2 / (N c) + f (the usual thin-lens formulas,
     * e.g. Ray, Applied Photographic Optics; from memory). Focus on s = 3 m, a face 0.15 m deep, 50
     * mm, c = 0.020 mm: N = 2.0178 gives H = 2.5 / (2.0178 x 0.020) + 0.05 = 62.0 m, and the limit
     * 3 x 61.95 / 59 = 3.15 m.
     */
    @Test
    void fNumberForOneFace() {
        ShotNumbers numbers = ShotNumbers.of(one, one.shots().get(0));
        assertEquals(0.15, numbers.depthMetres(), 1e-9);
        assertEquals(2.0178, numbers.fNumberNeeded(), 0.0005);
    }

    /**
     * Five in a V are 0.55 m deep, and a face 0.15 m: 4.2 m to 4.9 m with 35 mm. N = 2.1008 gives H
     * = 1.225 / (2.1008 x 0.020) + 0.035 = 29.19 m, and the limit 4.2 x 29.155 / 24.99 = 4.9 m.
     */
    @Test
    void fNumberForAGroup() {
        ShootPlan five = TestPlans.threeShots();
        ShotNumbers numbers = ShotNumbers.of(five, five.shots().get(0));
        assertEquals(0.70, numbers.depthMetres(), 1e-9);
        assertEquals(2.1008, numbers.fNumberNeeded(), 0.0005);
    }

    /**
     * The same formulas: f/8, 50 mm, 3 m, c = 0.020 mm: H = 2500 / (8 x 0.020) + 50 = 15 675 mm,
     * far limit 3 x 15.625 / 12.675 = 3.6982 m.
     */
    @Test
    void howFarBehindTheEyesItIsSharp() {
        assertEquals(0.6982, ShotNumbers.of(one, one.shots().get(0)).sharpBehindMetres(), 0.0005);
    }
}
