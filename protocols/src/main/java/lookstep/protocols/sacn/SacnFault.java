package lookstep.protocols.sacn;

/**
 * A datagram that is to be discarded.
 *
 * @param what is wrong with it, in plain words
 */
public record SacnFault(String what) implements SacnReading {}
