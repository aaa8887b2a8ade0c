package lookstep.server.output;

/**
 * How the line is.
 *
 * @param up packets are going out
 * @param says the same in plain words, with the mend if there is one
 */
public record LineState(boolean up, String says) {}
