/**
 * The line itself: bytes and the break, over a serial adapter or in memory. The only importer of
 * the serial library; must not know what the slots mean or when a packet is due.
 */
package lookstep.protocols.wire;
