/**
 * How much light arrives where: beams, inverse square, and what a room throws back. Knows nothing
 * of colour, of pictures or of how a lamp is driven.
 */
package lookstep.simulator.model.light;
