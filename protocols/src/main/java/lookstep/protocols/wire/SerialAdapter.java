package lookstep.protocols.wire;

import java.util.Optional;

/**
 * A serial device of this machine.
 *
 * @param device its path, such as {@code /dev/ttyUSB0}; may name another adapter after a replug
 * @param stablePath path that always names this adapter, under {@code /dev/serial/by-id}, if there
 *     is one
 * @param what it is, in plain words
 * @param trouble why it cannot be used and what to do; empty if it can
 */
public record SerialAdapter(
        String device, Optional<String> stablePath, String what, Optional<String> trouble) {
    /** Whether it can be opened. */
    public boolean usable() {
        return trouble.isEmpty();
    }

    /** The path to write in a command: the stable one if there is one. */
    public String path() {
        return stablePath.orElse(device);
    }
}
