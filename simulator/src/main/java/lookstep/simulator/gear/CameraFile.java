package lookstep.simulator.gear;

/**
 * One file of a release.
 *
 * @param ending of its name, without the dot, such as {@code JPG}
 * @param bytes its content; shared, so not to be changed
 */
public record CameraFile(String ending, byte[] bytes) {}
