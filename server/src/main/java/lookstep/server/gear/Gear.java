package lookstep.server.gear;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import lookstep.protocols.wire.DatagramPort;
import lookstep.protocols.wire.LinePort;
import lookstep.server.output.SacnSetup;

/**
 * What the shoot is connected to. A universe may go out on the line and over the network at once.
 *
 * @param line the lights' serial line; absent if all lights are on the network
 * @param network the lights' network; absent if all lights are on the line
 * @param frames the folder in which the camera's pictures arrive
 * @param copies the second place of each original
 * @param ways that bring pictures into that folder, beside whoever else does
 * @param control sets the camera and releases it, where that can be done from here
 * @param simulated true if there is no real light and no real camera; the pages say so
 * @param shutter releases the camera, where that can be done from here
 */
public record Gear(
        Optional<SerialOutput> line,
        Optional<NetworkOutput> network,
        Path frames,
        Optional<Path> copies,
        List<WayIn> ways,
        Optional<CameraControl> control,
        boolean simulated,
        Optional<Runnable> shutter) {
    /** The universe that a serial line carries unless another is asked for. */
    public static final int LINE_UNIVERSE = 1;

    /**
     * A serial line.
     *
     * @param port where it opens
     * @param universe which it carries, 1 or more
     */
    public record SerialOutput(LinePort port, int universe) {}

    /**
     * A network.
     *
     * @param port where it opens
     * @param setup what goes out, to whom
     */
    public record NetworkOutput(DatagramPort port, SacnSetup setup) {}

    /** On a line alone. */
    public static Gear onLine(
            LinePort line, Path frames, boolean simulated, Optional<Runnable> shutter) {
        return new Gear(
                Optional.of(new SerialOutput(line, LINE_UNIVERSE)),
                Optional.empty(),
                frames,
                Optional.empty(),
                List.of(),
                Optional.empty(),
                simulated,
                shutter);
    }

    /** The universes that go out, each with the names of its outputs. */
    public Map<Integer, List<String>> carried() {
        Map<Integer, List<String>> all = new TreeMap<>();
        line.ifPresent(l -> add(all, l.universe(), l.port().name()));
        network.ifPresent(
                n -> n.setup().universes().forEach(u -> add(all, u, "sACN on " + n.port().name())));
        return all;
    }

    private static void add(Map<Integer, List<String>> all, int universe, String output) {
        all.computeIfAbsent(universe, u -> new ArrayList<>()).add(output);
    }
}
