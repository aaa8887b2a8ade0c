package lookstep.server.paper;

/** What can hurt people. */
final class CautionsPart {
    private static final double SIZE = 9.6;
    private static final double HANG = 66;

    private CautionsPart() {}

    static void draw(Pages pages, Sheet sheet) {
        pages.heading("What to mind", 185);
        pages.paragraph(
                Face.BOLD,
                SIZE,
                0,
                "Light, mains, rigging and heat can hurt people. Local codes and licensed practice"
                        + " come first; this sheet certifies nothing.");
        pages.down(3);
        entry(
                pages,
                "Hazards",
                "DMX512 is not for hazards: it has no error check. Never drive pyrotechnics, moving"
                        + " scenery or lifts by it (ANSI E1.11, clauses 1.4 and 1.5).");
        entry(
                pages,
                "Mains",
                "Residual-current protection, nothing wet, no daisy chains, no damaged leads. A"
                        + " fifth of each circuit stays free (common practice). Know where the"
                        + " breaker is.");
        entry(
                pages,
                "Rigging",
                "What hangs over people has a second, independent steel and is hung by those who"
                        + " are licensed for it. Stands: wide leg under the load, sandbag, out of"
                        + " the exit.");
        entry(
                pages,
                "Heat",
                "LED heads get hot. Vents clear, cloth half a metre away unless the label says"
                        + " otherwise.");
        entry(
                pages,
                "Eyes",
                "Nobody stares into a bare LED at close range; dim while people set up.");
        entry(
                pages,
                "Flashing",
                "Repeated flashes can set off seizures. Keep to three changes in any second or fewer"
                        + " (WCAG 2.2, 2.3.1, a rule for screens kept here for rooms), also on a"
                        + " desk by hand, where nothing holds you back."
                        + (sheet.plan().flashingAllowed()
                                ? " THIS PLAN ALLOWS FLASHING: tell everybody beforehand."
                                : ""));
    }

    private static void entry(Pages pages, String word, String text) {
        pages.entry(word, HANG, SIZE, text);
    }
}
