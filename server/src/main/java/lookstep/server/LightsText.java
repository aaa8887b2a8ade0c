package lookstep.server;

import lookstep.server.look.LookLevels;
import lookstep.server.look.LookText;
import lookstep.server.plan.Look;
import lookstep.server.plan.ShootPlan;

/** What each light of each look gives, in words for {@code check}. */
final class LightsText {
    private LightsText() {}

    static String of(ShootPlan plan) {
        StringBuilder text =
                new StringBuilder(
                        "The lights of each look (at face height in the middle of the nearest"
                                + " row)\n");
        for (Look look : plan.looks()) {
            text.append(LookText.of(look, LookLevels.of(plan, look)));
        }
        text.append(
                """
                  Each light alone, the meter turned to it, after the rounding of its slots.
                  ΔE00: between grey cards in its light and in the light asked for; 1 is just seen.
                """);
        return text.toString();
    }
}
