package lookstep.server.keeping;

import java.nio.file.Path;

/**
 * One file that is to be copied.
 *
 * @param frame the number of its frame
 * @param file where it is
 */
public record Original(int frame, Path file) {}
