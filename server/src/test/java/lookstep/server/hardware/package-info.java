/**
 * The line on a real USB-serial driver, without hardware: a small guest machine with an emulated
 * adapter, and an independent program that reads what went over its wire. Must not take the
 * product's own word for anything that the capture can show.
 */
package lookstep.server.hardware;
