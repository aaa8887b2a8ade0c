package lookstep.server.desk;

import java.util.ArrayList;
import java.util.List;
import lookstep.server.plan.Look;
import lookstep.server.plan.Person;
import lookstep.server.plan.ShootPlan;

/**
 * One name that became another between two plans: at the same place of a list that is otherwise
 * called as before.
 *
 * @param kind look or person
 */
record Renaming(String kind, String from, String to) {
    static List<Renaming> between(ShootPlan before, ShootPlan now) {
        List<Renaming> all = new ArrayList<>();
        one(
                "look",
                before.looks().stream().map(Look::name).toList(),
                now.looks().stream().map(Look::name).toList(),
                all);
        one(
                "person",
                before.people().stream().map(Person::name).toList(),
                now.people().stream().map(Person::name).toList(),
                all);
        return all;
    }

    private static void one(
            String kind, List<String> before, List<String> now, List<Renaming> into) {
        if (before.size() != now.size()) {
            return;
        }
        Renaming found = null;
        for (int i = 0; i < now.size(); i++) {
            if (!before.get(i).equals(now.get(i))) {
                if (found != null || before.contains(now.get(i)) || now.contains(before.get(i))) {
                    return;
                }
                found = new Renaming(kind, before.get(i), now.get(i));
            }
        }
        if (found != null) {
            into.add(found);
        }
    }
}
