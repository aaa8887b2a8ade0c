package lookstep.simulator.model.light;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import lookstep.simulator.model.space.Vec3;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class LightTest {
    private static final Vec3 ORIGIN = new Vec3(0, 0, 0);

    private static Luminaire along(double beam, double size) {
        return new Luminaire(ORIGIN, new Vec3(0, 1, 0), beam, size);
    }

    private static double stops(double ratio) {
        return Math.log(ratio) / Math.log(2);
    }

    @Test
    void inverseSquare() {
        // IEC 60050-845, photometric distance law: 1000 cd give 1000 lx at 1 m, 250 at 2 m.
        Luminaire lamp = along(60, 0);
        assertEquals(1000, Illuminance.lux(lamp, 1000, new Vec3(0, 1, 0), null), 1e-9);
        assertEquals(250, Illuminance.lux(lamp, 1000, new Vec3(0, 2, 0), null), 1e-9);
    }

    // Stops lost to the cosine, computed: 30 -0.208, 45 -0.500, 60 -1.000, 75 -1.950.
    @ParameterizedTest
    @CsvSource({"30,-0.208", "45,-0.5", "60,-1", "75,-1.950"})
    void cosine(double degrees, double expected) {
        double a = Math.toRadians(degrees);
        Vec3 normal = new Vec3(Math.sin(a), -Math.cos(a), 0);
        double lux = Illuminance.lux(along(60, 0), 1000, new Vec3(0, 1, 0), normal);
        assertEquals(expected, stops(lux / 1000), 5e-4);
    }

    @Test
    void nothingFromBehindTheSurfaceOrTheLamp() {
        assertEquals(
                0, Illuminance.lux(along(60, 0), 1000, new Vec3(0, 1, 0), new Vec3(0, 1, 0)), 0);
        assertEquals(0, Illuminance.lux(along(60, 0), 1000, new Vec3(0, -1, 0), null), 0);
    }

    // Uniform disc against a point: 1 diameter 0.800, 2 0.941, 3 0.973, 5 0.9901 (the five-times
    // rule of the IES: within 1 %), 10 0.9975.
    @ParameterizedTest
    @CsvSource({"1,0.800", "2,0.941", "3,0.973", "5,0.9901", "10,0.9975"})
    void discAgainstPoint(double diameters, double expected) {
        Vec3 p = new Vec3(0, diameters * 1.2, 0);
        double ratio =
                Illuminance.lux(along(120, 1.2), 1, p, null)
                        / Illuminance.lux(along(120, 0), 1, p, null);
        assertEquals(expected, ratio, 5e-4);
    }

    @Test
    void discAgainstASumOverItsSurface() {
        // A diffuse disc of radius 0.6 m, 1 m away on the axis, cut in rings: each ring has
        // luminance L, and I = L pi R^2.
        double radius = 0.6;
        double sum = 0;
        int rings = 20000;
        for (int i = 0; i < rings; i++) {
            double r = radius * (i + 0.5) / rings;
            double d2 = 1 + r * r;
            sum += 2 * Math.PI * r * radius / rings / (d2 * d2);
        }
        double expected = sum / (Math.PI * radius * radius);
        assertEquals(expected, Illuminance.lux(along(120, 1.2), 1, new Vec3(0, 1, 0), null), 1e-6);
    }

    // Lamp to subject ds, subject to background g: -2 log2((ds + g) / ds).
    @ParameterizedTest
    @CsvSource({"1,1,-2.00", "1.5,3,-3.17", "2,4,-3.17", "1.5,0.5,-0.83"})
    void fallOffToTheBackground(double ds, double g, double expected) {
        Luminaire lamp = along(60, 0);
        double ratio =
                Illuminance.lux(lamp, 1, new Vec3(0, ds + g, 0), null)
                        / Illuminance.lux(lamp, 1, new Vec3(0, ds, 0), null);
        assertEquals(expected, stops(ratio), 5e-3);
    }

    @ParameterizedTest
    @CsvSource({"10", "36", "60", "90", "120", "170"})
    void beamIsHalfAtHalfTheAngleAndItsFluxIsTheIntegral(double degrees) {
        Beam beam = new Beam(degrees);
        assertEquals(1, beam.relative(1), 0);
        assertEquals(0.5, beam.relative(Math.cos(Math.toRadians(degrees / 2))), 1e-12);
        // Flux is the integral of intensity over the half sphere.
        int n = 200000;
        double flux = 0;
        for (int i = 0; i < n; i++) {
            double a = (i + 0.5) / n * Math.PI / 2;
            flux += beam.relative(Math.cos(a)) * 2 * Math.PI * Math.sin(a) * (Math.PI / 2) / n;
        }
        assertEquals(flux, beam.fluxLumens(1), flux * 1e-5);
    }

    @Test
    void diffuseBeamGivesPiLumensForEachCandela() {
        assertEquals(Math.PI, new Beam(120).fluxLumens(1), 1e-12);
    }

    @Test
    void integratingSphere() {
        // The sum of all bounces: 1000 lm, 50 m2, rho 0.5: 10 + 5 + 2.5 ... = 20 lx.
        double sum = 0;
        double bounce = 1000 * 0.5;
        for (int i = 0; i < 200; i++) {
            sum += bounce / 50;
            bounce *= 0.5;
        }
        assertEquals(20, sum, 1e-9);
        assertEquals(sum, IndirectLight.lux(1000, 50, 0.5), 1e-9);
        assertEquals(0, IndirectLight.lux(1000, 50, 0), 0);
        assertThrows(IllegalArgumentException.class, () -> IndirectLight.lux(1, 1, 1));
    }

    @Test
    void lampsThatCannotBeAreRefused() {
        assertThrows(IllegalArgumentException.class, () -> along(180, 0));
        assertThrows(IllegalArgumentException.class, () -> new Luminaire(ORIGIN, ORIGIN, 60, 0));
        assertTrue(along(179, 0).beam().exponent() > 0);
    }
}
