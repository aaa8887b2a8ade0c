package lookstep.server.look;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import lookstep.protocols.fixture.Emitter;
import lookstep.protocols.fixture.Fixture;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.protocols.fixture.Mode;
import lookstep.protocols.fixture.Reach;
import lookstep.server.plan.Light;
import lookstep.server.plan.Modifier;
import lookstep.simulator.model.colour.ColourTemperature;
import lookstep.simulator.model.space.Vec3;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class PhotometryTest {
    private static Light light(Fixture fixture, Mode mode) {
        return new Light(
                "a",
                fixture,
                mode,
                1,
                1,
                new Vec3(0, -3, 2),
                new Vec3(0, 0, 1.5),
                new Modifier("cloth", 0.5, 0.5, 0, false));
    }

    /** A quiet mode of 0.6 behind a cloth that lets half through: 0.3 of the candela. */
    @Test
    void aModeGivesMoreOrLess() {
        Fixture panel = GenericFixtures.BI_COLOUR;
        Mode quiet = new Mode("quiet", panel.modes().get(0).channels(), 0.6);
        List<Emitter> out = Photometry.modified(light(panel, quiet)).emitters();
        assertEquals(0.3 * 1600, out.get(0).candela(), 1e-9);
        assertEquals(0.3 * 1600, out.get(1).candela(), 1e-9);
        assertEquals(
                0.3 * 1600,
                Photometry.intensity(light(panel, quiet), new double[] {0.5, 0.5}).y(),
                1e-9);
    }

    /** The generic tint's figures keep to what is said of them, at each end of the whites. */
    @ParameterizedTest
    @ValueSource(strings = {"white and tint 8-bit", "white and tint 16-bit"})
    void theGenericTintIsSomeHundredthsOfDuv(String id) {
        Fixture panel = GenericFixtures.RGBWW;
        Mode mode = panel.mode(id).orElseThrow();
        for (int side = 0; side < 2; side++) {
            Reach reach = mode.reaches(5).get(side);
            for (int white = 0; white < 2; white++) {
                double shift =
                        duv(panel, mode, reach.parts().get(white + 2))
                                - duv(panel, mode, reach.parts().get(white));
                double size = side == 0 ? shift : -shift;
                assertTrue(size > 0.0125 && size < 0.0195, "shift " + shift);
            }
        }
    }

    private static double duv(Fixture fixture, Mode mode, double[] levels) {
        return ColourTemperature.of(
                        Photometry.intensity(light(fixture, mode), levels).chromaticity())
                .duv();
    }
}
