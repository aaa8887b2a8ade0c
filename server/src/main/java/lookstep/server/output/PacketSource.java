package lookstep.server.output;

import lookstep.protocols.dmx.DmxPacket;

/** What is to be on the line at a moment. Called once a packet, by the line's thread. */
@FunctionalInterface
public interface PacketSource {
    /**
     * One whole, consistent packet for {@code nowNanos} on the clock of {@link System#nanoTime}.
     */
    DmxPacket packet(long nowNanos);
}
