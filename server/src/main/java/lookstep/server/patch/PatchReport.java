package lookstep.server.patch;

import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import lookstep.server.plan.Light;
import lookstep.server.plan.ShootPlan;

/**
 * The patch of a whole rig.
 *
 * @param universes in ascending order
 * @param warnings what is wrong first, then what easily goes wrong
 */
public record PatchReport(List<UniversePatch> universes, List<PatchWarning> warnings) {
    public PatchReport {
        universes = List.copyOf(universes);
        warnings = List.copyOf(warnings);
    }

    /** Where it is not known yet which universes will be carried. */
    public static PatchReport of(ShootPlan plan) {
        return of(plan, universes(plan).keySet());
    }

    /**
     * The same, and the lights that no output reaches.
     *
     * @param carried the universes that outputs carry
     */
    public static PatchReport of(ShootPlan plan, Set<Integer> carried) {
        return new PatchReport(
                universes(plan).entrySet().stream()
                        .map(e -> UniversePatch.of(e.getKey(), e.getValue()))
                        .toList(),
                new PatchChecks(plan.rig(), carried).warnings());
    }

    private static Map<Integer, List<Light>> universes(ShootPlan plan) {
        return plan.rig().stream()
                .collect(Collectors.groupingBy(Light::universe, TreeMap::new, Collectors.toList()));
    }
}
