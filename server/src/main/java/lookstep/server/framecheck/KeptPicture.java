package lookstep.server.framecheck;

/**
 * A picture that the photographer keeps.
 *
 * @param number of its frame
 * @param shotName as the plan calls the shot
 * @param fingerprint what it looks like
 */
public record KeptPicture(int number, String shotName, Fingerprint fingerprint) {}
