package lookstep.server.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plan.file.DemoShoot;
import lookstep.server.plan.file.PlanReader;
import lookstep.server.plan.file.PlanReading;
import org.junit.jupiter.api.Test;

class DirectionPartTest {
    private static ShootPlan plan(String sensor) {
        String text = DemoShoot.text().replace("\ncamera: {", "\ncamera: {" + sensor);
        PlanReading reading =
                new PlanReader(GenericFixtures.all()).read(text.getBytes(StandardCharsets.UTF_8));
        return reading instanceof PlanReading.Good good
                ? good.plan()
                : DirectionPartTest.fails(reading);
    }

    private static ShootPlan fails(PlanReading reading) {
        throw new AssertionError(reading.toString());
    }

    private static DirectionPart of(ShootPlan plan, String framing) {
        Shot shot =
                plan.shots().stream()
                        .filter(s -> s.framing().equals(framing))
                        .findFirst()
                        .orElseThrow();
        return DirectionPart.of(plan, shot, plan.look(shot.look()));
    }

    /** 24 x 30 of an upright picture of 24 x 36 mm; faces are round on it, half again as wide. */
    @Test
    void anUprightFormatIsDrawnInAnUprightPicture() {
        DirectionPart portrait = of(plan(""), "portrait 4:5");
        assertEquals(0, portrait.crop().left(), 1e-9);
        assertEquals(1 / 12.0, portrait.crop().top(), 1e-9);
        DirectionPart.Face face = portrait.fromCamera().get(0).face();
        ShootPlan plan = plan("");
        Shot shot =
                plan.shots().stream()
                        .filter(s -> s.framing().equals("portrait 4:5"))
                        .findFirst()
                        .orElseThrow();
        // 0.09 m x lens / distance on 24 mm
        double onSensor = 0.09 * shot.lensMillimetres() / shot.distanceMetres() / 24;
        assertEquals(onSensor, face.r(), 0.003);
    }

    /** A smaller sensor: a smaller circle, so less of the depth is sharp; a smaller field. */
    @Test
    void theSensorOfThePlanIsTheOneThatIsDrawn() {
        DirectionPart full = of(plan(""), "square");
        DirectionPart small = of(plan(SMALL), "square");
        assertTrue(small.sharp().farY() < full.sharp().farY());
        assertEquals(
                1.5 * full.fromCamera().get(0).face().r(),
                small.fromCamera().get(0).face().r(),
                0.003);
    }

    private static final String SMALL = "sensor: [24, 16], ";
}
