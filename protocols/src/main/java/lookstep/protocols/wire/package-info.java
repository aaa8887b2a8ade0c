/**
 * The way out: bytes and the break over a serial adapter, datagrams through a network interface, or
 * either in memory. The only importer of the serial library and the only one here that opens
 * sockets; must not know what the slots mean or when a packet is due.
 */
package lookstep.protocols.wire;
