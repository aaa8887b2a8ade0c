package lookstep.server.plan;

/**
 * What the camera is set to.
 *
 * @param fNumber relative aperture
 * @param seconds exposure time
 * @param iso exposure index
 * @param kelvin white balance
 */
public record CameraSettings(double fNumber, double seconds, double iso, double kelvin) {}
