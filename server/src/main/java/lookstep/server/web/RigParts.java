package lookstep.server.web;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import lookstep.server.lighting.Lighting;
import lookstep.server.patch.PatchReport;
import lookstep.server.patch.SlotRange;
import lookstep.server.patch.SlotWalk;
import lookstep.server.patch.UniversePatch;
import lookstep.server.plan.Light;
import lookstep.server.plan.ShootPlan;
import lookstep.server.web.RigMessage.SlotPart;
import lookstep.server.web.RigMessage.SpanPart;
import lookstep.server.web.RigMessage.UniversePart;
import lookstep.server.web.RigMessage.WalkPart;

/** The patch in the words of the rig's message. Pure. */
public final class RigParts {
    private RigParts() {}

    /**
     * The whole rig.
     *
     * @param carried the outputs of each universe that goes out, in words
     */
    public static RigMessage of(Lighting lighting, Map<Integer, List<String>> carried) {
        ShootPlan plan = lighting.plan();
        Set<Integer> out = carried.keySet();
        PatchReport report = PatchReport.of(plan, out);
        return new RigMessage(
                "rig",
                report.universes().stream()
                        .map(
                                u ->
                                        new UniversePart(
                                                u.universe(),
                                                carried.getOrDefault(u.universe(), List.of()),
                                                spans(u)))
                        .toList(),
                plan.rig().stream().map(l -> walk(l, lighting.walk())).toList(),
                report.warnings().stream().map(w -> w.says() + ": " + w.mend()).toList());
    }

    private static List<SpanPart> spans(UniversePatch universe) {
        List<SpanPart> spans = new ArrayList<>();
        universe.taken().forEach(t -> spans.add(span(t.slots(), t.light())));
        universe.gaps().forEach(gap -> spans.add(span(gap, null)));
        universe.left().ifPresent(left -> spans.add(span(left, null)));
        spans.sort(Comparator.comparingInt(SpanPart::from));
        return spans;
    }

    private static SpanPart span(SlotRange slots, String light) {
        return new SpanPart(slots.first(), slots.last(), light);
    }

    private static WalkPart walk(Light light, SlotWalk walk) {
        return new WalkPart(
                light.name(),
                light.fixture().name(),
                light.mode().id(),
                light.universe(),
                walk.steps().stream()
                        .filter(s -> s.light().equals(light.name()))
                        .map(s -> new SlotPart(s.slot(), s.words()))
                        .toList());
    }
}
