package lookstep.server.web;

import java.util.List;
import java.util.Locale;
import lookstep.server.pictured.LookPictures;
import lookstep.server.pictured.LookPictures.Origin;
import lookstep.server.plan.PlanWords;
import lookstep.server.suggest.Suggestion;
import lookstep.server.suggest.Suggestions;
import lookstep.server.tryout.Mix;
import lookstep.server.tryout.TryOuts.Shown;
import lookstep.server.tryout.TryOuts.Suggested;
import lookstep.server.web.CrewMessage.PicturePart;

/**
 * Looks that differ most: the answer to {@code POST /suggest}.
 *
 * @param says from what they were chosen, and how good the choice is
 * @param looks in the order to step them, then those with a light moved
 */
record SuggestedPart(String says, List<Card> looks) {
    /**
     * One look.
     *
     * @param id to put it into the plan
     * @param why what is different about it
     * @param lights what each light does
     * @param move the light to carry, with what to look out for; empty if none
     * @param inPlan whether the plan has it already
     * @param shot id of whose people and camera it is for
     * @param mix to go on from
     */
    record Card(
            String id,
            String name,
            String why,
            List<String> lights,
            String camera,
            String move,
            boolean inPlan,
            String shot,
            MixJson.Whole mix,
            PicturePart picture) {}

    static SuggestedPart of(Suggested found, LookPictures pictures) {
        return new SuggestedPart(
                says(found), found.looks().stream().map(s -> card(s, pictures)).toList());
    }

    private static String says(Suggested found) {
        Suggestions s = found.suggestions();
        String from =
                "%s, for ‘%s’: "
                        .formatted(
                                found.plates() ? "From plates" : "Computed", found.shot().name());
        if (s.inPlace().isEmpty()) {
            return from
                    + "none of %d looks passes (%s)"
                            .formatted(
                                    s.counts().looked(),
                                    String.join(", ", s.counts().refused().keySet()));
        }
        double seconds = s.inPlace().stream().mapToDouble(Suggestion::seconds).sum();
        return from
                + String.format(
                        Locale.ROOT,
                        "%d of %d looks pass. In this order all changes take about %s. %s",
                        s.counts().passed(),
                        s.counts().looked(),
                        PlanWords.length(seconds),
                        s.quality().proven()
                                ? "No other choice is further apart."
                                : "No other choice is further apart by more than %.0f %%."
                                        .formatted(100 * s.quality().gap()));
    }

    private static Card card(Shown shown, LookPictures pictures) {
        Suggestion s = shown.suggestion();
        Origin origin = pictures.origin(shown.plan(), s.look());
        return new Card(
                shown.id(),
                s.look().name(),
                "against ‘" + s.nearest().look() + "’: " + s.why(),
                s.lights().stream().map(l -> l.light() + ": " + l.words()).toList(),
                s.camera(),
                s.moved()
                        .map(
                                m ->
                                        m.words()
                                                + (m.caution().isEmpty()
                                                        ? ""
                                                        : "; mind: " + m.caution()))
                        .orElse(""),
                !s.inPlan().isEmpty(),
                shown.shot().id(),
                MixJson.Whole.of(Mix.of(shown.plan(), s.look())),
                PicturePart.of(
                        "/suggested/%s.jpg?v=%s".formatted(shown.id(), origin.plates()),
                        origin,
                        shown.plan(),
                        shown.shot()));
    }
}
