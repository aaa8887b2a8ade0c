package lookstep.server.checks;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Collections;
import java.util.List;
import lookstep.server.checks.MeasuredLight.Factors;
import lookstep.server.plan.ShootPlan;
import org.junit.jupiter.api.Test;

/** A stop is a factor of two, so what plates say moves the checks' numbers by just that. */
class MeasuredLightTest {
    private final ShootPlan plan = Plans.with();

    private MeasuredLight all(double people, double background) {
        Factors f = new Factors(people, background, 1);
        return new MeasuredLight("measured", Collections.nCopies(plan.rig().size(), f), f);
    }

    private double number(Kind kind, String name, MeasuredLight measured) {
        return new PlanChecks()
                .check(plan, measured).findings().stream()
                        .filter(f -> f.kind() == kind && f.subject().shot().equals("safe"))
                        .filter(f -> f.numbers().containsKey(name))
                        .mapToDouble(f -> (Double) f.numbers().get(name))
                        .findFirst()
                        .orElseThrow();
    }

    @Test
    void twiceTheLightOnThePeopleIsAStopMoreOnTheirFaces() {
        double computed = number(Kind.EXPOSURE, "stopsOver", MeasuredLight.NONE);
        assertEquals(computed + 1, number(Kind.EXPOSURE, "stopsOver", all(2, 1)), 1e-9);
        assertEquals(computed, number(Kind.EXPOSURE, "stopsOver", all(1, 2)), 1e-9);
    }

    @Test
    void aQuarterOfTheLightOnTheBackgroundIsTwoStopsDarker() {
        double computed = number(Kind.ROOM, "backgroundStopsFromGrey", MeasuredLight.NONE);
        assertEquals(
                computed - 2, number(Kind.ROOM, "backgroundStopsFromGrey", all(1, 0.25)), 1e-9);
        assertEquals(computed, number(Kind.ROOM, "backgroundStopsFromGrey", all(2, 1)), 1e-9);
    }

    @Test
    void peopleStandOffMoreFromABackgroundThatGetsLess() {
        double computed = number(Kind.SEPARATION, "leastStops", MeasuredLight.NONE);
        assertTrue(number(Kind.SEPARATION, "leastStops", all(1, 1 / 16.0)) > computed);
    }

    @Test
    void whatWasMeasuredIsSaidToBeAndWhatWasNotIsNot() {
        List<Finding> findings = new PlanChecks().check(plan, all(2, 2)).findings();
        assertTrue(
                findings.stream()
                        .filter(f -> f.kind() == Kind.EXPOSURE)
                        .allMatch(f -> f.says().contains("(measured)")));
        assertFalse(
                findings.stream()
                        .filter(f -> f.kind() == Kind.DEPTH_OF_FIELD)
                        .anyMatch(f -> f.says().contains("(measured)")));
    }
}
