/**
 * The packet and its timing as in ANSI E1.11, and the bytes of its slots, in both directions. Must
 * not know how it gets onto a line, what a slot means, nor of any clock.
 */
package lookstep.protocols.dmx;
