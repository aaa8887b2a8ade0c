/**
 * The packet and its timing as in ANSI E1.11. Must not know how it gets onto a line, nor of any
 * clock.
 */
package lookstep.protocols.dmx;
