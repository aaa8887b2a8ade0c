/**
 * Levels over a network as in ANSI E1.31 (streaming ACN): the three packets, each with its codec,
 * and where they are sent. Must not know of sockets, of any clock, nor of who sends what when.
 */
package lookstep.protocols.sacn;
