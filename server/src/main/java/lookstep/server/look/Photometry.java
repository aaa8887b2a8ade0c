package lookstep.server.look;

import java.util.List;
import lookstep.protocols.fixture.Emitter;
import lookstep.protocols.fixture.Fixture;
import lookstep.server.plan.Light;
import lookstep.server.plan.Modifier;
import lookstep.simulator.model.colour.Chromaticity;
import lookstep.simulator.model.colour.Xyz;
import lookstep.simulator.model.light.Beam;
import lookstep.simulator.model.light.Luminaire;

/** A planned light in the words of the physics. */
public final class Photometry {
    private Photometry() {}

    /**
     * The fixture as it is in its mode and with the modifier on: its emitters' candela and its beam
     * are those in front of the modifier. Everything that asks what a planned light gives asks
     * here.
     */
    public static Fixture modified(Light light) {
        Fixture f = light.fixture();
        double beam = beamDegrees(f, light.modifier());
        double share = light.modifier().transmission();
        if (beam > f.beamDegrees()) {
            // The same lumens over a wider beam.
            share *= new Beam(f.beamDegrees()).fluxLumens(1) / new Beam(beam).fluxLumens(1);
        }
        double axis = share * light.mode().output();
        return new Fixture(
                f.id(),
                f.name(),
                f.emitters().stream()
                        .map(e -> new Emitter(e.name(), e.x(), e.y(), e.candela() * axis))
                        .toList(),
                f.curve(),
                beam,
                f.watts(),
                f.modes());
    }

    private static double beamDegrees(Fixture f, Modifier m) {
        if (m.beamDegrees() == 0) {
            return f.beamDegrees();
        }
        return m.cuts() ? Math.min(m.beamDegrees(), f.beamDegrees()) : m.beamDegrees();
    }

    /** Where it stands, where it looks, how wide, with its modifier. */
    public static Luminaire luminaire(Light light) {
        return new Luminaire(
                light.position(),
                light.aim(),
                modified(light).beamDegrees(),
                light.modifier().sizeMetres());
    }

    /** Each emitter at full on the beam's axis, in front of the modifier; Y is in candela. */
    public static List<Xyz> emitters(Light light) {
        return modified(light).emitters().stream()
                .map(e -> new Chromaticity(e.x(), e.y()).toXyz(e.candela()))
                .toList();
    }

    /**
     * What the light sends out along its axis at these emitter levels (0..1 each); Y is in candela.
     */
    public static Xyz intensity(Light light, double[] levels) {
        List<Xyz> full = emitters(light);
        double x = 0;
        double y = 0;
        double z = 0;
        for (int i = 0; i < levels.length; i++) {
            x += levels[i] * full.get(i).x();
            y += levels[i] * full.get(i).y();
            z += levels[i] * full.get(i).z();
        }
        return new Xyz(x, y, z);
    }
}
