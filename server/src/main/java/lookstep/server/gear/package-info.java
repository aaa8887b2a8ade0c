/**
 * The gear of one shoot, real or rehearsed: chosen once, so that nothing below asks which it is.
 */
package lookstep.server.gear;
