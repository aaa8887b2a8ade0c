package lookstep.server.output;

import lookstep.protocols.dmx.DmxPacket;

/**
 * What is to go out on one universe at a moment. Called once a packet, by the thread of the output.
 */
@FunctionalInterface
public interface PacketSource {
    /**
     * One whole, consistent packet for {@code nowNanos} on the clock of {@link System#nanoTime}.
     */
    DmxPacket packet(long nowNanos);
}
