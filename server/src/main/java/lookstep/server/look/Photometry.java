package lookstep.server.look;

import java.util.List;
import lookstep.protocols.fixture.Emitter;
import lookstep.server.plan.Light;
import lookstep.simulator.model.colour.Chromaticity;
import lookstep.simulator.model.colour.Xyz;
import lookstep.simulator.model.light.Luminaire;

/** A planned light in the words of the physics. */
public final class Photometry {
    private Photometry() {}

    /** Where it stands, where it looks, how wide, with its modifier. */
    public static Luminaire luminaire(Light light) {
        double beam = light.modifier().beamDegrees();
        return new Luminaire(
                light.position(),
                light.aim(),
                beam > 0 ? beam : light.fixture().beamDegrees(),
                light.modifier().sizeMetres());
    }

    /** Each emitter at full on the beam's axis, behind the modifier; Y is in candela. */
    public static List<Xyz> emitters(Light light) {
        return light.fixture().emitters().stream().map(e -> full(light, e)).toList();
    }

    private static Xyz full(Light light, Emitter e) {
        return new Chromaticity(e.x(), e.y()).toXyz(e.candela() * light.modifier().transmission());
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
