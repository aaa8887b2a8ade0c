/**
 * A camera that is reached by PTP/IP: its new pictures come into the frames folder, and it is set
 * and released from here. Must not know what a frame is, nor which look or shot is on.
 */
package lookstep.server.ptpip;
