package lookstep.protocols.gdtf;

/**
 * A number that has a default in the standard. The defaults look like real figures, so it must be
 * told apart who said it.
 *
 * @param value finite
 * @param inFile true if the file has it, false if it is the standard's default
 */
public record Given(double value, boolean inFile) {}
