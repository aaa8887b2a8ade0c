package lookstep.server.plan;

import java.util.List;
import lookstep.protocols.fixture.Emitter;

/**
 * Tells rigs apart by where their light falls: a light that stands elsewhere, has another modifier,
 * fixture, dimming curve or mode is another rig; one that only has another address or other words
 * is not.
 */
public final class RigHash {
    private RigHash() {}

    /** SHA-256 in hex. */
    public static String of(List<Light> rig) {
        StringBuilder text = new StringBuilder();
        for (Light light : rig) {
            text.append(light.name())
                    .append('|')
                    .append(light.position())
                    .append(light.aim())
                    .append(light.modifier())
                    .append(light.fixture().id())
                    .append('|')
                    .append(light.fixture().beamDegrees())
                    .append('|')
                    .append(light.fixture().curve())
                    .append('|')
                    .append(light.mode().id())
                    .append('|')
                    .append(light.mode().output());
            for (Emitter emitter : light.fixture().emitters()) {
                text.append(emitter);
            }
            text.append('\n');
        }
        return Sha256.hex(text.toString());
    }
}
