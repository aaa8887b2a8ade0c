/**
 * Frames with one light alone and with the house alone: from them, in linear light, any look of the
 * rig. How a camera turns light into codes is found from frames whose light is known. Physics and
 * arithmetic; must not know of files, of the plan, or of how frames came.
 */
package lookstep.simulator.model.plates;
