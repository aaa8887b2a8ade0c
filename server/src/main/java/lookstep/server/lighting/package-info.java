/**
 * What the state of the shoot asks of the lights: the look that is on with all that was changed on
 * the set, a test of the rig, or the work light; and what a press of the crew changes about it.
 * Pure; must not know of lines, pages or time.
 */
package lookstep.server.lighting;
