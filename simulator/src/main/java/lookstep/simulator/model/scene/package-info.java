/**
 * Who and what is in front of the camera, as bare facts: people, how they stand, the room, the
 * lamps. Knows nothing of cameras or of how a picture is made.
 */
package lookstep.simulator.model.scene;
