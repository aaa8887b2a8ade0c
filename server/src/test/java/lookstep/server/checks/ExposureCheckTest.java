package lookstep.server.checks;

import static lookstep.server.checks.Plans.DEMO;
import static lookstep.server.checks.Plans.number;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import lookstep.server.TestPlans;
import lookstep.server.plan.ShootPlan;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ExposureCheckTest {
    /**
     * One lamp of 100 cd two metres before a face, 20 lx of house light: 44.6696 lx, worked out by
     * hand in ShotNumbersTest. ISO 2720 with C = 250: f/8, 1/128 s, ISO 3200 is metered for 640 lx;
     * 44.67 lx want ISO 3200 x 640 / 44.67 = 45847, or 250 x 64 / (44.67 x 3200) = 0.1119 s.
     */
    @Test
    void tellsTheIsoAndTheTimeThatFollow() {
        ShootPlan one = TestPlans.oneDimmer();
        Finding f = ExposureCheck.of(Staged.of(one, one.shots().get(0))).get(0);
        assertEquals(44.6696, number(f, "meanFaceLux"), 0.0005);
        assertEquals(-3.8407, number(f, "stopsOver"), 0.0005);
        assertEquals(45847, number(f, "isoAsMetered"), 5);
        assertEquals(0.1119, number(f, "secondsAsMetered"), 0.0001);
        assertEquals(24.6355, number(f, "frontLux lamp"), 0.0005);
        assertEquals(0.0342, number(f, "frontLux from the room"), 0.0001);
        assertEquals(20, number(f, "frontLux from the house"), 1e-9);
        assertEquals(Weight.WRONG, f.weight());
    }

    /** A step of the dial under is no finding; a stop and more is, and the ISO mends it. */
    @Test
    void aStopUnderIsMendedByTheIso() {
        ShootPlan dark = Plans.with("iso: 6400", "iso: 3200");
        Finding f = ExposureCheck.of(Staged.of(dark, Plans.shot(dark, "safe"))).get(0);
        assertEquals(Weight.LOOK, f.weight());
        Object iso = f.mend().orElseThrow().changes().get(0).value();
        ShootPlan mended = Plans.with("iso: 6400", "iso: " + Math.round((double) iso));
        assertEquals(
                Weight.GOOD,
                ExposureCheck.of(Staged.of(mended, Plans.shot(mended, "safe"))).get(0).weight());
    }

    @Test
    void frontAndBackRowAreTold() {
        List<Finding> all = ExposureCheck.of(Staged.of(DEMO, Plans.shot(DEMO, "tight-five")));
        assertTrue(number(all.get(0), "frontLux key") > 0);
        assertTrue(number(all.get(0), "backLux key") > 0);
    }

    /**
     * Of 1 + m cos 2 pi F t an exposure keeps m |sinc(F t)|. With m = 0.3 and nothing but that
     * light: 100 Hz 1/60 0.143, 1/125 0.203, 1/200 0.558, 1/250 0.667; 120 Hz 1/50 0.109, 1/100
     * 0.135, 1/125 0.036, 1/250 0.581 stop from peak to peak (computed apart).
     */
    @ParameterizedTest
    @CsvSource({
        "100, 60, 0.143", "100, 125, 0.203", "100, 200, 0.558", "100, 250, 0.667", "100, 100, 0",
        "120, 50, 0.109", "120, 100, 0.135", "120, 125, 0.036", "120, 250, 0.581", "120, 60, 0"
    })
    void mainsBandingFollowsTheSinc(double hertz, double overTime, double stops) {
        assertEquals(stops, FlickerCheck.swing(hertz, 1 / overTime, 1), 0.0006);
    }

    @Test
    void houseLightOnTheMainsWantsWholePulses() {
        ShootPlan house =
                Plans.with(
                        "house: {lux: 2, kelvin: 2700}",
                        "house: {lux: 400, kelvin: 2700}",
                        "time: 1/100, iso: 6400",
                        "time: 1/250, iso: 6400");
        Finding f = FlickerCheck.of(Staged.of(house, Plans.shot(house, "safe"))).get(0);
        assertEquals(Weight.LOOK, f.weight());
        assertTrue(f.says().contains("1/250 s under house light"), f.says());
        assertEquals(
                Weight.GOOD,
                FlickerCheck.of(Staged.of(DEMO, Plans.shot(DEMO, "safe"))).get(0).weight());
    }

    /** One over the focal length (reciprocal rule, common practice), 1/60 s for people. */
    @Test
    void tooLongForPeopleIsWrongAndCostsStops() {
        ShootPlan slow = Plans.with("time: 1/100, iso: 6400", "time: 1/30, iso: 6400");
        Finding f = ShutterCheck.of(Staged.of(slow, Plans.shot(slow, "safe"))).get(0);
        assertEquals(Weight.WRONG, f.weight());
        // 1/32 to 1/101.6 exact is 5/3 stops.
        assertEquals(5 / 3.0, number(f, "costStops"), 1e-6);
        assertEquals("1/100", f.mend().orElseThrow().changes().get(0).value());
        // Head 0.1 m/s x 1/32 s x 35 / (4.2 - 0.035) = 0.0263 mm on the sensor.
        assertEquals(0.0263, number(f, "smearMillimetres"), 0.0001);
        assertEquals(List.of(), ShutterCheck.of(Staged.of(DEMO, Plans.shot(DEMO, "safe"))));
    }

    /** 1/256 to 1/101.6 exact is 4/3 stops: from ISO 6400 to 2500 on the dial. */
    @Test
    void wholePulsesArePaidByTheIso() {
        String[] house = {"house: {lux: 2, kelvin: 2700}", "house: {lux: 400, kelvin: 2700}"};
        ShootPlan before =
                Plans.with(house[0], house[1], "time: 1/100, iso: 6400", "time: 1/250, iso: 6400");
        Mend mend =
                FlickerCheck.of(Staged.of(before, Plans.shot(before, "safe")))
                        .get(0)
                        .mend()
                        .orElseThrow();
        assertTrue(mend.says().contains("1/100 s is 1.3 stops more light: ISO 2500"), mend.says());
        assertEquals(
                List.of(
                        new Change(Paths.camera("safe", "time"), "1/100"),
                        new Change(Paths.camera("safe", "iso"), 2500.0)),
                mend.changes());
    }

    @Test
    void whereTheDialEndsTheTimeIsLeftToWords() {
        ShootPlan low =
                Plans.with(
                        "house: {lux: 2, kelvin: 2700}",
                        "house: {lux: 400, kelvin: 2700}",
                        "time: 1/100, iso: 6400",
                        "time: 1/250, iso: 100");
        Finding pulses = FlickerCheck.of(Staged.of(low, Plans.shot(low, "safe"))).get(0);
        assertEquals(List.of(), pulses.mend().orElseThrow().changes());
        assertTrue(pulses.mend().orElseThrow().says().contains("no ISO of the dial"));
        ShootPlan high = Plans.with("time: 1/100, iso: 6400", "time: 1/30, iso: 40000");
        Finding slow = ShutterCheck.of(Staged.of(high, Plans.shot(high, "safe"))).get(0);
        assertEquals(List.of(), slow.mend().orElseThrow().changes());
        assertTrue(slow.mend().orElseThrow().says().contains("no ISO of the dial"));
    }
}
