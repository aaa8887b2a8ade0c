package lookstep.server.pictured;

import lookstep.simulator.model.plates.PlateStack;

/**
 * Plates that hold for the rig as it stands.
 *
 * @param id tells this set from others
 * @param shot id of the shot whose camera and people they are of
 * @param says when and of what they were taken, in words: {@code taken 21:04 on ‘Safe four’}
 * @param stack what the looks are summed from
 */
public record PlateSource(String id, String shot, String says, PlateStack stack) {}
