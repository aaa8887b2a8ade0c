package lookstep.server.plan.edit;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** In what two plans differ, entry by entry; entries of lists are known by id or name. */
public final class Differences {
    private final List<Difference> found = new ArrayList<>();

    private Differences() {}

    /** In the order of the first, what is new behind it. */
    public static List<Difference> between(JsonNode was, JsonNode now) {
        Differences out = new Differences();
        out.compare(PlanPath.ROOT, was, now);
        return List.copyOf(out.found);
    }

    private void compare(PlanPath path, JsonNode was, JsonNode now) {
        if (Numbers.same(was, now)) {
            return;
        }
        if (was.isObject() && now.isObject()) {
            groups(path, was, now);
            return;
        }
        if (was.isArray() && now.isArray()) {
            Optional<Map<Step.Choice, Integer>> before = entries(was);
            Optional<Map<Step.Choice, Integer>> after = entries(now);
            if (before.isPresent() && after.isPresent()) {
                lists(path, was, now, before.get(), after.get());
                return;
            }
            if (was.size() == now.size() && (hasBunch(was) || hasBunch(now))) {
                for (int i = 0; i < was.size(); i++) {
                    compare(path.then(i), was.get(i), now.get(i));
                }
                return;
            }
        }
        found.add(new Difference(path, Difference.Kind.CHANGED, was, now));
    }

    private void groups(PlanPath path, JsonNode was, JsonNode now) {
        for (var entry : was.properties()) {
            PlanPath at = path.then(entry.getKey());
            if (now.has(entry.getKey())) {
                compare(at, entry.getValue(), now.get(entry.getKey()));
            } else {
                found.add(new Difference(at, Difference.Kind.GONE, entry.getValue(), null));
            }
        }
        for (var entry : now.properties()) {
            if (!was.has(entry.getKey())) {
                found.add(
                        new Difference(
                                path.then(entry.getKey()),
                                Difference.Kind.NEW,
                                null,
                                entry.getValue()));
            }
        }
    }

    private void lists(
            PlanPath path,
            JsonNode was,
            JsonNode now,
            Map<Step.Choice, Integer> before,
            Map<Step.Choice, Integer> after) {
        List<Step.Choice> gone =
                before.keySet().stream().filter(k -> !after.containsKey(k)).toList();
        List<Step.Choice> come =
                after.keySet().stream().filter(k -> !before.containsKey(k)).toList();
        boolean renamed =
                gone.size() == 1
                        && come.size() == 1
                        && before.get(gone.get(0)).equals(after.get(come.get(0)));
        before.forEach(
                (key, at) -> {
                    if (after.containsKey(key)) {
                        compare(path.then(key), was.get(at), now.get(after.get(key)));
                    } else if (renamed) {
                        compare(path.then(key), was.get(at), now.get(at));
                    } else {
                        found.add(
                                new Difference(
                                        path.then(key), Difference.Kind.GONE, was.get(at), null));
                    }
                });
        if (!renamed) {
            for (Step.Choice key : come) {
                found.add(
                        new Difference(
                                path.then(key),
                                Difference.Kind.NEW,
                                null,
                                now.get(after.get(key))));
            }
        }
        ArrayNode stayed = names(before, after);
        ArrayNode stand = names(after, before);
        if (!stayed.equals(stand)) {
            found.add(new Difference(path, Difference.Kind.ORDER, stayed, stand));
        }
    }

    private static ArrayNode names(Map<Step.Choice, Integer> of, Map<Step.Choice, Integer> alsoIn) {
        ArrayNode out = JsonNodeFactory.instance.arrayNode();
        of.keySet().stream().filter(alsoIn::containsKey).forEach(k -> out.add(k.value()));
        return out;
    }

    /** Empty if not every entry has an id or a name of its own. */
    private static Optional<Map<Step.Choice, Integer>> entries(JsonNode list) {
        Map<Step.Choice, Integer> out = new LinkedHashMap<>();
        for (int i = 0; i < list.size(); i++) {
            Optional<Step.Choice> key = key(list.get(i));
            if (key.isEmpty() || out.putIfAbsent(key.get(), i) != null) {
                return Optional.empty();
            }
        }
        return Optional.of(out);
    }

    private static Optional<Step.Choice> key(JsonNode entry) {
        for (String name : List.of("id", "name")) {
            JsonNode value = entry.get(name);
            if (value != null && value.isValueNode()) {
                return Optional.of(new Step.Choice(name, value.asText()));
            }
        }
        return Optional.empty();
    }

    private static boolean hasBunch(JsonNode list) {
        for (JsonNode item : list) {
            if (item.isContainerNode()) {
                return true;
            }
        }
        return false;
    }
}
