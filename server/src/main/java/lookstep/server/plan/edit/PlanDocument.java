package lookstep.server.plan.edit;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.NavigableSet;

/**
 * A plan file's text, with what each part of it says and where it stands. Never changes; edits give
 * another one.
 */
public final class PlanDocument {
    private final String text;
    private final SpanReader.Spans spans;
    private final Style style;

    private PlanDocument(String text, SpanReader.Spans spans) {
        this.text = text;
        this.spans = spans;
        style = Style.of(text, spans.root(), spans.lines());
    }

    /**
     * Reads a text.
     *
     * @throws EditRefused if it is not YAML, or has anchors, tags or other things that plan files
     *     do not have
     */
    public static PlanDocument of(String text) throws EditRefused {
        return new PlanDocument(text, SpanReader.read(text));
    }

    /** All of it, as it is in the file. */
    public String text() {
        return text;
    }

    /**
     * What it says, in its order: texts, numbers, true and false; null for a key without a value.
     */
    public JsonNode toJson() {
        return spans.root().json().deepCopy();
    }

    /**
     * The value at a path.
     *
     * @throws EditRefused if there is none
     */
    public JsonNode at(PlanPath path) throws EditRefused {
        return Trees.at(json(), Finding.there(json(), path)).deepCopy();
    }

    /**
     * The document after an edit.
     *
     * @throws EditRefused if it does not fit what is there; or if the text cannot be cut so that it
     *     says exactly what it should
     */
    public PlanDocument apply(Edit edit) throws EditRefused {
        return Applying.apply(this, edit);
    }

    JsonNode json() {
        return spans.root().json();
    }

    Piece root() {
        return spans.root();
    }

    Lines lines() {
        return spans.lines();
    }

    NavigableSet<Integer> commas() {
        return spans.commas();
    }

    Style style() {
        return style;
    }

    PlanDocument with(List<Splice> splices) throws EditRefused {
        return of(Splice.all(text, splices));
    }
}
