/**
 * A look and a moment become levels, and levels become slots. Pure: no thread, no clock, nothing of
 * the line or of what happened before.
 */
package lookstep.server.look;
