/**
 * What really leaves the machine, as an independent program reads it: over a real USB-serial
 * driver, in a small guest machine with an emulated adapter, and over a network. Must not take the
 * product's own word for anything that the capture can show.
 */
package lookstep.server.hardware;
