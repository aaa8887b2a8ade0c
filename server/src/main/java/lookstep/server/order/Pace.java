package lookstep.server.order;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * How much longer (above 1) or shorter than planned shots and changes really take, learned within
 * the shoot. Factors are between 0.5 and 3.
 *
 * <p>Each leg says real time over planned time, as a logarithm, for the shot and for each part of
 * its change with the weight of that part. A factor is the weighted median of these, pulled towards
 * 1 by as much as two legs that went as planned; a kind of change is pulled towards the factor of
 * all changes instead. The median keeps one odd leg from counting more than any other; pauses are
 * left out by the caller.
 *
 * @param shots for the time to shoot
 * @param changes for each kind of change
 */
public record Pace(double shots, Map<ChangeKind, Double> changes) {
    /** As planned. */
    public static final Pace PLANNED = new Pace(1, Map.of());

    private static final double LEAST = 0.5;
    private static final double MOST = 3;
    // how many legs the plan itself counts; our figure
    private static final double PRIOR_LEGS = 2;
    private static final double SHORTEST_SECONDS = 0.1;

    private record Sign(double logRatio, double weight) {}

    public Pace {
        changes = Map.copyOf(changes);
    }

    /** From the legs made so far; the sequence does not matter. */
    public static Pace of(List<PacedLeg> legs) {
        List<Sign> shots = new ArrayList<>();
        List<Sign> all = new ArrayList<>();
        Map<ChangeKind, List<Sign>> kinds = new EnumMap<>(ChangeKind.class);
        for (PacedLeg leg : legs) {
            if (leg.plannedShootSeconds() > 0 && leg.shootShare() > 0) {
                shots.add(new Sign(leg.logShoot(), leg.shootShare()));
            }
            double parts = leg.planned().parts().stream().mapToDouble(Change.Part::seconds).sum();
            if (leg.planned().seconds() < SHORTEST_SECONDS || parts < SHORTEST_SECONDS) {
                continue;
            }
            all.add(new Sign(leg.logChange(), leg.changeShare()));
            for (Change.Part part : leg.planned().parts()) {
                double weight = leg.changeShare() * part.seconds() / parts;
                kinds.computeIfAbsent(part.kind(), k -> new ArrayList<>())
                        .add(new Sign(leg.logChange(), weight));
            }
        }
        double logAll = pulled(all, 0);
        Map<ChangeKind, Double> changes = new EnumMap<>(ChangeKind.class);
        for (ChangeKind kind : ChangeKind.values()) {
            changes.put(kind, factor(pulled(kinds.getOrDefault(kind, List.of()), logAll)));
        }
        return new Pace(factor(pulled(shots, 0)), changes);
    }

    private List<Item> scaled(List<Item> items) {
        return items.stream().map(i -> i.taking(i.shootSeconds() * shots)).toList();
    }

    /** The same situation with shots as long as they really take. */
    public Situation at(Situation situation) {
        return new Situation(scaled(situation.left()), situation.made(), situation.current());
    }

    /** The changes as long as they really take. */
    public Times at(Times times) {
        return times.scaled(changes);
    }

    private static double factor(double log) {
        return Math.min(MOST, Math.max(LEAST, Math.exp(log)));
    }

    private static double pulled(List<Sign> signs, double towards) {
        double weight = signs.stream().mapToDouble(Sign::weight).sum();
        return (weight * median(signs, weight / 2) + PRIOR_LEGS * towards) / (weight + PRIOR_LEGS);
    }

    /**
     * Where half of the weight is reached, between the two around it if it is reached just there.
     */
    private static double median(List<Sign> signs, double half) {
        List<Sign> sorted =
                signs.stream().sorted(Comparator.comparingDouble(Sign::logRatio)).toList();
        double before = 0;
        for (int i = 0; i < sorted.size(); i++) {
            before += sorted.get(i).weight();
            if (Math.abs(before - half) < 1e-9 && i + 1 < sorted.size()) {
                return (sorted.get(i).logRatio() + sorted.get(i + 1).logRatio()) / 2;
            }
            if (before > half) {
                return sorted.get(i).logRatio();
            }
        }
        return 0;
    }
}
