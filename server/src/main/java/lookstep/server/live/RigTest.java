package lookstep.server.live;

/**
 * The rig is being looked through: one light alone, or one slot alone.
 *
 * @param light its name; empty for a slot that is no light's
 * @param universe of the slot, or of the light
 * @param slot 1..512; 0 is the whole light
 */
public record RigTest(String light, int universe, int slot) {}
