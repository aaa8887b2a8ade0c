package lookstep.server.checks;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import lookstep.server.plan.Person;
import lookstep.server.plan.ShootPlan;

/** Pictures that would be the same one twice, and people that are left out. */
final class VarietyCheck {
    private VarietyCheck() {}

    static List<Finding> of(ShootPlan plan, Likeness likeness) {
        List<Finding> all = new ArrayList<>();
        double most = 0;
        for (int i = 0; i < likeness.shots().size(); i++) {
            for (int j = i + 1; j < likeness.shots().size(); j++) {
                String one = likeness.shots().get(i);
                String other = likeness.shots().get(j);
                if (!client(plan, one).equals(client(plan, other))) {
                    continue; // each client gets their own
                }
                double alike = likeness.alike().get(i).get(j);
                most = Math.max(most, alike);
                if (alike >= Likeness.SAME) {
                    all.add(same(plan, one, other, alike));
                }
            }
        }
        if (all.isEmpty() && plan.shots().size() > 1) {
            all.add(
                    new Finding(
                            Kind.VARIETY,
                            Weight.GOOD,
                            Subject.PLAN,
                            Words.text(
                                    "no two of %d pictures are the same: the likest are %.2f alike"
                                            + " (1 is the same, from %.1f on it is said)",
                                    plan.shots().size(), most, Likeness.SAME),
                            new Numbers()
                                    .put("greatestLikeness", most)
                                    .put("sameFromLikeness", Likeness.SAME)
                                    .all(),
                            Optional.empty()));
        }
        people(plan, all);
        return all;
    }

    private static String client(ShootPlan plan, String shot) {
        return plan.shot(shot).map(s -> s.use().job()).orElse("");
    }

    private static Finding same(ShootPlan plan, String one, String other, double alike) {
        return new Finding(
                Kind.VARIETY,
                Weight.LOOK,
                new Subject(other, plan.shot(other).orElseThrow().look(), "", ""),
                Words.text(
                        "‘%s’ would be ‘%s’ again: %.2f alike",
                        plan.shot(other).orElseThrow().name(),
                        plan.shot(one).orElseThrow().name(),
                        alike),
                new Numbers()
                        .put("likeness", alike)
                        .put("sameFromLikeness", Likeness.SAME)
                        .put("otherShot", one)
                        .all(),
                Optional.of(
                        Mend.words(
                                "another arrangement, another look or another distance; or leave one"
                                        + " out")));
    }

    private static void people(ShootPlan plan, List<Finding> all) {
        boolean solos = plan.shots().stream().anyMatch(s -> s.solo());
        boolean groups = plan.shots().stream().anyMatch(s -> !s.solo());
        for (Person p : plan.people()) {
            boolean alone =
                    plan.shots().stream().anyMatch(s -> s.solo() && s.people().contains(p.name()));
            boolean among =
                    plan.shots().stream().anyMatch(s -> !s.solo() && s.people().contains(p.name()));
            if (solos && !alone) {
                all.add(
                        left(
                                p.name(),
                                Weight.LOOK,
                                p.name() + " has no solo, and others have",
                                solo(plan, p.name())));
            }
            if (groups && !among) {
                all.add(
                        left(
                                p.name(),
                                Weight.WRONG,
                                p.name() + " is in no group picture",
                                Mend.words("name " + p.name() + " in the people of one")));
            }
        }
        if (!solos && plan.people().size() > 1) {
            all.add(
                    new Finding(
                            Kind.VARIETY,
                            Weight.LOOK,
                            Subject.PLAN,
                            "nobody has a solo",
                            new Numbers().put("people", plan.people().size()).all(),
                            Optional.of(
                                    Mend.words("one entry with solos: true makes one for each"))));
        }
    }

    private static Mend solo(ShootPlan plan, String person) {
        return plan.shots().stream()
                .filter(s -> s.solo())
                .findFirst()
                .map(
                        s ->
                                new Mend(
                                        "a solo as ‘" + s.name() + "’ has it",
                                        List.of(
                                                new Change(
                                                        List.of("shots", "+"),
                                                        Map.of(
                                                                "name",
                                                                "Solo, " + person,
                                                                "look",
                                                                s.look(),
                                                                "people",
                                                                List.of(person),
                                                                "arrangement",
                                                                "solo",
                                                                "lens",
                                                                s.lensMillimetres(),
                                                                "distance",
                                                                s.distanceMetres(),
                                                                "framing",
                                                                s.framing())))))
                .orElseThrow();
    }

    private static Finding left(String person, Weight weight, String says, Mend mend) {
        return new Finding(
                Kind.VARIETY,
                weight,
                Subject.PLAN.ofPerson(person),
                says,
                Map.of(),
                Optional.of(mend));
    }
}
