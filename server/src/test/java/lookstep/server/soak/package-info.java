/**
 * The parts of {@code server/soak}: what arrives and is pressed for a whole shoot's time, and every
 * beat of the outputs meanwhile.
 */
package lookstep.server.soak;
