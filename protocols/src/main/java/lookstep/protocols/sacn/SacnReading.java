package lookstep.protocols.sacn;

/** What a datagram turned out to be: one of the three packets of E1.31, or none. */
public sealed interface SacnReading permits SacnData, SacnSync, SacnDiscovery, SacnFault {}
