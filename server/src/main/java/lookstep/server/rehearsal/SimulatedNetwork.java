package lookstep.server.rehearsal;

import java.io.IOException;
import java.net.InetAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.UUID;
import lookstep.server.gear.Gear.NetworkOutput;
import lookstep.server.loop.LoopThread;
import lookstep.server.output.SacnSetup;
import lookstep.simulator.gear.LightSnapshot;
import lookstep.simulator.gear.PatchedLight;
import lookstep.simulator.gear.SacnFarEnd;
import lookstep.simulator.gear.SacnListener;

/**
 * Lights that listen to sACN on this machine alone, at a port of their own: nothing of a rehearsal
 * leaves it, and no real light hears it.
 */
final class SimulatedNetwork implements AutoCloseable {
    private static final String OWN = "127.0.0.1";
    private static final long STEP_NANOS = 1_000_000;

    private final SacnListener lights;
    private final SacnFarEnd farEnd;
    private final LoopThread loop;
    private final NetworkOutput output;

    private SimulatedNetwork(Map<Integer, List<PatchedLight>> universes, Path folder)
            throws IOException {
        lights = new SacnListener(universes);
        farEnd = SacnFarEnd.unicast(InetAddress.getLoopbackAddress(), 0, lights);
        SacnSetup setup =
                new SacnSetup(
                        OWN,
                        false,
                        List.of(farEnd.address()),
                        universes.keySet(),
                        SacnSetup.DEFAULT_PRIORITY,
                        OptionalInt.empty(),
                        UUID.nameUUIDFromBytes(folder.toString().getBytes(StandardCharsets.UTF_8)),
                        "Lookstep rehearsal");
        output = new NetworkOutput(setup.port(), setup);
        loop =
                LoopThread.start(
                        "network's far end",
                        now -> {
                            farEnd.doWork(now);
                            return now + STEP_NANOS;
                        });
    }

    /**
     * Sets it up.
     *
     * @throws IOException if no port can be had
     */
    static SimulatedNetwork start(Map<Integer, List<PatchedLight>> universes, Path folder)
            throws IOException {
        return new SimulatedNetwork(universes, folder);
    }

    NetworkOutput output() {
        return output;
    }

    void patch(Map<Integer, List<PatchedLight>> universes) {
        lights.patch(universes);
    }

    LightSnapshot snapshot() {
        return lights.snapshot();
    }

    @Override
    public void close() {
        loop.close();
        farEnd.close();
    }
}
