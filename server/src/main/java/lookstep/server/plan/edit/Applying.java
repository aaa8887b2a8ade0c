package lookstep.server.plan.edit;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.NullNode;
import lookstep.server.plan.edit.Finding.Found;

/** Makes an edit twice, in the text and in the tree, and compares. */
final class Applying {
    private static final String LOOK = "look at the plan as it is now, and decide again";

    /** The text after an edit, and what it has to say. */
    private record Result(PlanDocument document, JsonNode expected) {}

    private Applying() {}

    static PlanDocument apply(PlanDocument document, Edit edit) throws EditRefused {
        Result result;
        try {
            result = result(document, edit);
        } catch (IndexOutOfBoundsException | NullPointerException | ClassCastException e) {
            // The guard below holds for surprises on the way as well: nothing was written yet.
            throw surprise(edit, e.toString());
        }
        if (!Numbers.same(result.document().json(), result.expected())) {
            throw surprise(edit, "the text would say something else");
        }
        return result.document();
    }

    private static EditRefused surprise(Edit edit, String why) {
        return new EditRefused(
                edit.path().words() + " cannot be changed here without harm (" + why + ")",
                "change it in a text editor");
    }

    private static Result result(PlanDocument document, Edit edit) throws EditRefused {
        if (edit instanceof Edit.Set set) {
            return set(document, set);
        }
        if (edit instanceof Edit.Remove remove) {
            return remove(document, remove.path(), remove.was());
        }
        if (edit instanceof Edit.Insert insert) {
            return insert(document, insert);
        }
        if (edit instanceof Edit.Move move) {
            return move(document, move);
        }
        if (edit instanceof Edit.Rename rename) {
            return rename(document, rename);
        }
        return duplicate(document, (Edit.Duplicate) edit);
    }

    private static Result rename(PlanDocument document, Edit.Rename rename) throws EditRefused {
        PlanPath at = Finding.there(document.json(), rename.path());
        if (at.isRoot() || !(at.steps().get(at.steps().size() - 1) instanceof Step.Key old)) {
            throw new EditRefused(rename.path().words() + " is no key", "name a key");
        }
        JsonNode group = Trees.at(document.json(), at.parent());
        if (rename.value().isBlank() || group.has(rename.value())) {
            throw new EditRefused(
                    rename.path().words()
                            + " cannot be called '"
                            + rename.value()
                            + "': there is one already, or it is empty",
                    "choose another name");
        }
        return new Result(
                Writing.rename(document, at, rename.value()),
                Trees.renamed(document.json(), at.parent(), old.name(), rename.value()));
    }

    private static Result set(PlanDocument document, Edit.Set set) throws EditRefused {
        if (set.value().isNull()) {
            return remove(document, set.path(), set.was());
        }
        if (set.path().isRoot()) {
            throw new EditRefused("the whole plan cannot be replaced", "change its parts");
        }
        JsonNode value = Numbers.asWritten(set.value());
        Found found = Finding.follow(document.json(), set.path());
        if (found.missing().isRoot()) {
            seen(document, set.path(), found.found(), set.was());
            return new Result(
                    Writing.set(document, found.found(), value),
                    Trees.set(document.json(), found.found(), value));
        }
        absent(set.path(), set.was());
        return create(document, set.path(), found, value);
    }

    private static Result create(PlanDocument document, PlanPath path, Found found, JsonNode value)
            throws EditRefused {
        if (!found.missing().steps().stream().allMatch(Step.Key.class::isInstance)) {
            throw new EditRefused(
                    path.words() + ": there is no '" + found.missing().steps().get(0).words() + "'",
                    "make the list first");
        }
        PlanPath at = found.found();
        String key = ((Step.Key) found.missing().steps().get(0)).name();
        PlanPath rest =
                new PlanPath(found.missing().steps().subList(1, found.missing().steps().size()));
        JsonNode made = Trees.below(rest, value);
        if (Trees.at(document.json(), at).isNull()) {
            JsonNode group = Trees.below(found.missing(), value);
            return new Result(
                    Writing.set(document, at, group), Trees.set(document.json(), at, group));
        }
        int end = Trees.at(document.json(), at).size();
        return new Result(
                Writing.insert(document, at, end, key, made),
                Trees.set(document.json(), at.then(key), made));
    }

    private static Result remove(PlanDocument document, PlanPath path, JsonNode was)
            throws EditRefused {
        if (path.isRoot()) {
            throw new EditRefused("the whole plan cannot be removed", "remove its parts");
        }
        PlanPath at = Finding.there(document.json(), path);
        seen(document, path, at, was);
        return new Result(Writing.remove(document, at), Trees.remove(document.json(), at));
    }

    private static Result insert(PlanDocument document, Edit.Insert insert) throws EditRefused {
        JsonNode value = Numbers.asWritten(insert.value());
        PlanPath at = Finding.there(document.json(), insert.path());
        JsonNode list = Trees.at(document.json(), at);
        if (!list.isArray()) {
            throw new EditRefused(
                    insert.path().words() + " is " + Said.value(list) + ", no list", LOOK);
        }
        int index = place(insert, list);
        return new Result(
                Writing.insert(document, at, index, "", value),
                Trees.insert(document.json(), at, index, value));
    }

    private static int place(Edit.Insert insert, JsonNode list) throws EditRefused {
        if (insert.before() != null) {
            return Finding.index(list, step(insert.before()), insert.path());
        }
        if (insert.after() != null) {
            return Finding.index(list, step(insert.after()), insert.path()) + 1;
        }
        int index = insert.at() == null ? list.size() : insert.at();
        if (index < 0 || index > list.size()) {
            throw new EditRefused(
                    insert.path().words() + " has " + list.size() + " entries, no place " + index,
                    LOOK);
        }
        return index;
    }

    private static Step step(JsonNode json) throws EditRefused {
        try {
            return Step.of(json);
        } catch (IllegalArgumentException e) {
            throw new EditRefused(e.getMessage(), "send such a step");
        }
    }

    private static Result move(PlanDocument document, Edit.Move move) throws EditRefused {
        PlanPath at = item(document, move.path());
        seen(document, move.path(), at, move.was());
        int size = Trees.at(document.json(), at.parent()).size();
        if (move.to() < 0 || move.to() >= size) {
            throw new EditRefused(
                    move.path().parent().words()
                            + " has "
                            + size
                            + " entries, no place "
                            + move.to(),
                    LOOK);
        }
        return new Result(
                Writing.move(document, at, move.to()), Trees.move(document.json(), at, move.to()));
    }

    private static Result duplicate(PlanDocument document, Edit.Duplicate edit) throws EditRefused {
        PlanPath at = item(document, edit.path());
        seen(document, edit.path(), at, edit.was());
        JsonNode original = Trees.at(document.json(), at);
        PlanPath list = at.parent();
        int index = ((Step.Index) at.last()).at() + 1;
        JsonNode expected = Trees.insert(document.json(), list, index, original.deepCopy());
        PlanDocument out = Writing.duplicate(document, at);
        if (!edit.changed().isEmpty() && !original.isObject()) {
            throw new EditRefused(edit.path().words() + " has no keys to change", LOOK);
        }
        for (var entry : edit.changed().properties()) {
            PlanPath key = list.then(index).then(entry.getKey());
            JsonNode there = original.path(entry.getKey());
            if (entry.getValue().isNull() && there.isMissingNode()) {
                continue;
            }
            JsonNode seen = there.isMissingNode() ? NullNode.instance : there;
            Result one = set(out, new Edit.Set(key, seen, entry.getValue()));
            out = one.document();
            expected =
                    entry.getValue().isNull()
                            ? Trees.remove(expected, key)
                            : Trees.set(expected, key, Numbers.asWritten(entry.getValue()));
        }
        return new Result(out, expected);
    }

    private static PlanPath item(PlanDocument document, PlanPath path) throws EditRefused {
        PlanPath at = Finding.there(document.json(), path);
        if (at.isRoot() || !(Trees.at(document.json(), at.parent()) instanceof ArrayNode)) {
            throw new EditRefused(path.words() + " is no entry of a list", "choose one");
        }
        return at;
    }

    private static void seen(PlanDocument document, PlanPath path, PlanPath at, JsonNode was)
            throws EditRefused {
        JsonNode is = Trees.at(document.json(), at);
        if (!Numbers.same(is, was)) {
            throw new EditRefused(
                    path.words()
                            + " is now "
                            + Said.value(is)
                            + ", and was "
                            + Said.value(was)
                            + " when you began",
                    LOOK);
        }
    }

    private static void absent(PlanPath path, JsonNode was) throws EditRefused {
        if (!was.isNull()) {
            throw new EditRefused(
                    path.words() + " is gone, and was " + Said.value(was) + " when you began",
                    LOOK);
        }
    }
}
