/**
 * Pictures and settings of a camera over a network: the packets of PTP/IP (CIPA DC-005) and the
 * datasets of PTP (ISO 15740), each with its codec. Must not know of sockets, of any clock, of who
 * asks for what when, nor of any maker's extensions.
 */
package lookstep.protocols.ptpip;
