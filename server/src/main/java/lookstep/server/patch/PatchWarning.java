package lookstep.server.patch;

import java.util.List;

/**
 * Something about the patch that is wrong or easily goes wrong.
 *
 * @param kind what sort of thing
 * @param lights whom it is about, by name, in the rig's order
 * @param says what is so, in plain words
 * @param mend what to do
 */
public record PatchWarning(Kind kind, List<String> lights, String says, String mend) {
    /** What sort of thing. */
    public enum Kind {
        /** Two lights have a slot in common. */
        OVERLAP(true),
        /** A light has slots that no universe has. */
        PAST_THE_END(true),
        /** No output carries the light's universe. */
        NOT_CARRIED(true),
        /** In another of its modes a light would reach into a neighbour or past slot 512. */
        OTHER_MODE(false),
        /** Lights of one kind are planned in several modes. */
        MIXED_MODES(false);

        private final boolean wrong;

        Kind(boolean wrong) {
            this.wrong = wrong;
        }

        /** True if it is wrong as planned; false if it is good, and a slip is near. */
        public boolean wrong() {
            return wrong;
        }
    }

    public PatchWarning {
        lights = List.copyOf(lights);
    }
}
