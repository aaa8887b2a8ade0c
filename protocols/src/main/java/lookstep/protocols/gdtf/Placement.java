package lookstep.protocols.gdtf;

import java.util.List;
import java.util.Optional;

/**
 * The channels of a mode where they lie, with geometry references followed: a channel on a geometry
 * that is referenced four times is there four times.
 *
 * @param channels all of them, in the file's order, then in the order of the geometries
 * @param beams the beams of the mode, in the order of the geometries
 * @param notes what is odd but does no harm
 * @param trouble why it cannot be told where the channels lie; empty if it can
 */
public record Placement(
        List<PlacedChannel> channels,
        List<PlacedBeam> beams,
        List<String> notes,
        Optional<String> trouble) {
    public Placement {
        channels = List.copyOf(channels);
        beams = List.copyOf(beams);
        notes = List.copyOf(notes);
    }

    /**
     * A channel in one place.
     *
     * @param path geometry names from the top to the one that the channel works on
     * @param referenced true if it is there by a geometry reference
     * @param dmxBreak from 1
     * @param slots from 1, most significant first, before the light's address is added; empty if
     *     the channel is virtual
     */
    public record PlacedChannel(
            DmxChannel channel,
            List<String> path,
            boolean referenced,
            int dmxBreak,
            List<Integer> slots) {
        public PlacedChannel {
            path = List.copyOf(path);
            slots = List.copyOf(slots);
        }
    }

    /**
     * A beam in one place.
     *
     * @param path geometry names from the top to the beam
     */
    public record PlacedBeam(Geometry.Beam beam, List<String> path) {
        public PlacedBeam {
            path = List.copyOf(path);
        }
    }
}
