package lookstep.simulator.gear;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;

/** How pictures leave a simulated camera. One thread at a time. */
public interface Transfer {
    /**
     * Sends the files of one release, which get one name and differ in its ending. Returns when
     * they have left.
     *
     * @param files in the order in which they leave, at least one
     * @return where the first is, or would be if all of it had come: absolute if that is on this
     *     machine and known, otherwise its name
     * @throws IOException if they cannot be sent; the message says where to
     */
    Path send(List<CameraFile> files) throws IOException;

    /** Does what the fault says, from the next file on. */
    void misbehave(Fault.OfCamera fault);

    /** Puts everything right again. */
    void mend();
}
