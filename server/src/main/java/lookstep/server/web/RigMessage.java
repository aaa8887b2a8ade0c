package lookstep.server.web;

import java.util.List;

/**
 * The rig as it is addressed, for those who test it; it does not change while a shoot is served.
 *
 * @param kind always {@code rig}
 * @param universes which slots are whose
 * @param lights in the rig's order, with what each slot does
 * @param warnings what to look out for, with the mend
 */
public record RigMessage(
        String kind, List<UniversePart> universes, List<WalkPart> lights, List<String> warnings) {

    /**
     * One universe.
     *
     * @param carriedBy the outputs that carry it, in words; empty if none does
     */
    public record UniversePart(int universe, List<String> carriedBy, List<SpanPart> spans) {}

    /** Slots in a row; {@code light} is null where they are free. */
    public record SpanPart(int from, int to, String light) {}

    /** One light's slots. */
    public record WalkPart(
            String name, String fixture, String mode, int universe, List<SlotPart> slots) {}

    /** One slot, 1..512, and what it does. */
    public record SlotPart(int slot, String does) {}
}
