package lookstep.server.patch;

import static lookstep.protocols.fixture.GenericFixtures.BI_COLOUR;
import static lookstep.protocols.fixture.GenericFixtures.DIMMER;
import static lookstep.protocols.fixture.GenericFixtures.RGBW;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import lookstep.server.patch.PatchWarning.Kind;
import lookstep.server.patch.UniversePatch.Taken;
import lookstep.server.plan.Light;
import org.junit.jupiter.api.Test;

class PatchReportTest {
    private static PatchReport report(Light... rig) {
        return PatchReport.of(Rigs.plan(rig));
    }

    private static List<String> texts(PatchReport report) {
        return report.warnings().stream().map(w -> w.says() + " -> " + w.mend()).toList();
    }

    @Test
    void whoHasWhichSlotsAndWhatIsFree() {
        PatchReport report =
                report(
                        Rigs.light("rim", RGBW, "16-bit", 1, 21),
                        Rigs.light("key", BI_COLOUR, "16-bit", 1, 1),
                        Rigs.light("back", RGBW, "16-bit", 3, 505));
        // 16-bit: 2 slots for each of 2 whites, or of 4 colours.
        assertEquals(
                List.of(
                        new UniversePatch(
                                1,
                                List.of(
                                        new Taken(
                                                "key", new SlotRange(1, 4), "bi-colour", "16-bit"),
                                        new Taken("rim", new SlotRange(21, 28), "rgbw", "16-bit")),
                                List.of(new SlotRange(5, 20)),
                                Optional.of(new SlotRange(29, 512))),
                        new UniversePatch(
                                3,
                                List.of(
                                        new Taken(
                                                "back", new SlotRange(505, 512), "rgbw", "16-bit")),
                                List.of(new SlotRange(1, 504)),
                                Optional.empty())),
                report.universes());
        assertEquals(List.of(), report.warnings());
    }

    @Test
    void aLightThatWouldReachIntoItsNeighbourInAnotherMode() {
        PatchReport report =
                report(
                        Rigs.light("fill", BI_COLOUR, "8-bit", 1, 11),
                        Rigs.light("rim", RGBW, "16-bit", 1, 13),
                        Rigs.light("other universe", RGBW, "16-bit", 2, 13));
        // fill takes 11 and 12; dimmed 3 slots, 16-bit 4. From 21 on all is free.
        assertEquals(
                List.of(
                        "if ‘fill’ were set to dimmer 8-bit it would take 11-13 and meet ‘rim’"
                                + " -> check that its display says 8-bit; or address it at 21,"
                                + " where each of its modes has room",
                        "if ‘fill’ were set to 16-bit it would take 11-14 and meet ‘rim’"
                                + " -> check that its display says 8-bit; or address it at 21,"
                                + " where each of its modes has room"),
                texts(report));
        assertEquals(List.of("fill", "rim"), report.warnings().get(0).lights());
        assertEquals(Kind.OTHER_MODE, report.warnings().get(0).kind());
        assertFalse(report.warnings().get(0).kind().wrong());
    }

    @Test
    void aLightThatWouldGoPastTheEndInAnotherMode() {
        // 16-bit would take 512 and 513.
        assertEquals(
                List.of(
                        "if ‘hair’ were set to 16-bit it would take 512-513, and a universe ends at"
                                + " 512 -> check that its display says 8-bit; or address it at 1,"
                                + " where each of its modes has room"),
                texts(report(Rigs.light("hair", DIMMER, "8-bit", 1, 512))));
        assertEquals(List.of(), texts(report(Rigs.light("hair", DIMMER, "8-bit", 1, 511))));
    }

    @Test
    void aKindInTwoModes() {
        Light a = Rigs.light("left", BI_COLOUR, "8-bit", 1, 1);
        Light b = Rigs.light("right", BI_COLOUR, "16-bit", 1, 11);
        Light c = Rigs.light("back", BI_COLOUR, "8-bit", 2, 1);
        assertEquals(
                List.of(
                        "the same kind, bi-colour, set to two modes: ‘left’ to 8-bit, ‘right’ to"
                                + " 16-bit -> check both displays"),
                texts(report(a, b)));
        assertEquals(
                List.of(
                        "the same kind, bi-colour, set to two modes: ‘left’ and ‘back’ to 8-bit,"
                                + " ‘right’ to 16-bit -> check the display of each"),
                texts(report(a, b, c)));
        assertEquals(List.of(), texts(report(a, c)));
    }

    @Test
    void aUniverseThatNoOutputCarries() {
        Light a = Rigs.light("left", BI_COLOUR, "16-bit", 1, 1);
        Light b = Rigs.light("right", BI_COLOUR, "16-bit", 4, 1);
        assertEquals(List.of(), PatchReport.of(Rigs.plan(a, b), Set.of(4, 1)).warnings());
        assertEquals(
                List.of(
                        "‘right’ is on universe 4, which no output carries, so it stays dark"
                                + " -> address it on universe 1 or 2, or give universe 4 an output"),
                texts(PatchReport.of(Rigs.plan(a, b), Set.of(2, 1))));
        assertEquals(2, PatchReport.of(Rigs.plan(a, b), Set.of()).warnings().size());
    }

    /** A plan file with these is refused; one made in code may have them. */
    @Test
    void overlapAndOverflowAreNamed() {
        PatchReport report =
                report(
                        Rigs.light("fill", BI_COLOUR, "16-bit", 1, 11),
                        Rigs.light("rim", RGBW, "16-bit", 1, 14),
                        Rigs.light("back", RGBW, "16-bit", 1, 506));
        assertEquals(
                List.of(
                        "‘rim’ on 14-21 meets ‘fill’ on 11-14"
                                + " -> address ‘rim’ at 15, which is free",
                        "‘back’ would take 506-513, and a universe has slots 1 to 512"
                                + " -> address ‘back’ at 1, which is free"),
                texts(report));
        assertEquals(
                List.of(Kind.OVERLAP, Kind.PAST_THE_END),
                report.warnings().stream().map(PatchWarning::kind).toList());
        // 1-10 free, 11-21 taken by both, 22-505 free, the rest taken.
        assertEquals(
                List.of(new SlotRange(1, 10), new SlotRange(22, 505)),
                report.universes().get(0).gaps());
    }

    @Test
    void aFullUniverseHasNoRoomToOffer() {
        Light[] rig = new Light[65];
        for (int i = 0; i < 64; i++) {
            rig[i] = Rigs.light("light " + i, RGBW, "16-bit", 1, 1 + 8 * i);
        }
        rig[64] = Rigs.light("one more", RGBW, "16-bit", 1, 1);
        assertEquals(
                List.of(
                        "‘one more’ on 1-8 meets ‘light 0’ on 1-8 -> address ‘one more’ on another"
                                + " universe: this one has no 8 free slots in a row"),
                texts(report(rig)));
    }

    @Test
    void inWordsForCheck() {
        assertEquals(
                """
                Patch
                  universe 1
                    1-10              10 free
                    11-12   fill      bi-colour, mode '8-bit'
                    13-20   rim left  rgbw, mode '16-bit'
                    21-512            492 free
                What is wrong with the patch
                  ‘fill’ is on universe 1, which no output carries, so it stays dark: give universe 1 an output
                  ‘rim left’ is on universe 1, which no output carries, so it stays dark: give universe 1 an output
                What to look at on the lights' displays
                  if ‘fill’ were set to dimmer 8-bit it would take 11-13 and meet ‘rim left’: check that its display says 8-bit; or address it at 21, where each of its modes has room
                  if ‘fill’ were set to 16-bit it would take 11-14 and meet ‘rim left’: check that its display says 8-bit; or address it at 21, where each of its modes has room
                """,
                PatchText.of(
                        PatchReport.of(
                                Rigs.plan(
                                        Rigs.light("fill", BI_COLOUR, "8-bit", 1, 11),
                                        Rigs.light("rim left", RGBW, "16-bit", 1, 13)),
                                Set.of())));
    }
}
