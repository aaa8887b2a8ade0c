package lookstep.server.live;

/**
 * How one connection to the outside is. Not an event: it is true only while it lasts.
 *
 * @param name what it leads to: lights, camera
 * @param up whether it works
 * @param says in plain words, with the mend if it does not
 */
public record Link(String name, boolean up, String says) {}
