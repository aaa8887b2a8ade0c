package lookstep.server.desk;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import lookstep.server.plan.edit.Edit;
import lookstep.server.plan.edit.EditRefused;
import lookstep.server.plan.edit.PlanDocument;
import lookstep.server.plan.edit.PlanPath;

/**
 * Edits as the pages send them. Where a page does not say what it saw, because it names an item by
 * its own name or id and only moves or copies it, what is there now is taken.
 */
final class PageEdits {
    private PageEdits() {}

    /**
     * Reads them one after the other, each against the document as the ones before leave it.
     *
     * @throws EditRefused if they are no edits, or their place is not there
     */
    static List<Edit> read(JsonNode edits, PlanDocument document) throws EditRefused {
        if (!edits.isArray()) {
            throw new EditRefused("these are no edits", "send a list of them");
        }
        List<Edit> all = new ArrayList<>();
        PlanDocument now = document;
        for (JsonNode one : edits) {
            for (JsonNode plain : plain(one, now)) {
                ArrayNode list = JsonNodeFactory.instance.arrayNode().add(plain);
                Edit edit = Edit.read(list).get(0);
                now = now.apply(edit);
                all.add(edit);
            }
        }
        return all;
    }

    private static List<JsonNode> plain(JsonNode one, PlanDocument now) throws EditRefused {
        if (!(one instanceof ObjectNode given)) {
            return List.of(one);
        }
        ObjectNode edit = given.deepCopy();
        switch (edit.path("op").asText()) {
            case "insert" -> rename(edit, "index", "at");
            case "move" -> {
                rename(edit, "index", "to");
                seen(edit, now);
            }
            case "duplicate" -> {
                rename(edit, "changes", "changed");
                seen(edit, now);
            }
            default -> {
                // as the pages send it
            }
        }
        return List.of(edit);
    }

    private static void rename(ObjectNode edit, String from, String to) {
        if (edit.has(from)) {
            edit.set(to, edit.remove(from));
        }
    }

    private static void seen(ObjectNode edit, PlanDocument now) throws EditRefused {
        if (!edit.has("was")) {
            edit.set("was", at(edit.path("path"), now));
        }
    }

    private static JsonNode at(JsonNode path, PlanDocument now) throws EditRefused {
        return now.at(PlanPath.of(path));
    }
}
