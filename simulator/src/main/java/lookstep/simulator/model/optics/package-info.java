/**
 * The camera as optics: what it sees, how long it needs, what is sharp. Knows nothing of scenes, of
 * pictures or of how a camera is connected.
 */
package lookstep.simulator.model.optics;
