package lookstep.server.gear;

import java.nio.file.Path;
import java.util.Optional;
import lookstep.protocols.wire.LinePort;

/**
 * What the shoot is connected to.
 *
 * @param line where the lights' line opens; it carries universe 1
 * @param frames the folder in which the camera's pictures arrive
 * @param simulated true if there is no real light and no real camera; the pages say so
 * @param shutter releases the camera, where that can be done from here
 */
public record Gear(LinePort line, Path frames, boolean simulated, Optional<Runnable> shutter) {
    /** The universe that the serial line carries. */
    public static final int LINE_UNIVERSE = 1;
}
