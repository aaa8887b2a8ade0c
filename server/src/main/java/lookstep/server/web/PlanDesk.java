package lookstep.server.web;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Path;
import lookstep.server.live.NotPossible;
import lookstep.server.order.Variety;
import lookstep.server.plan.Look;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;

/** The plan file as the pages reach it: read, edited, checked. */
public interface PlanDesk {
    /** How the file is. */
    PlanPart standing();

    /** What is to be said of the plan as it is now, as far as it is worked out. */
    ChecksPart checks();

    /** How alike the shots of a plan are; from what they are, until it is worked out better. */
    Variety variety(ShootPlan plan);

    /** The whole document, for the plan editor: the answer to {@code GET /plan}. */
    Object document();

    /** The folder that the plan file lies in, or will. */
    Path folder();

    /**
     * Carries edits out, or undo and redo: the body of {@code POST /plan}.
     *
     * @throws NotPossible if they were refused; the words say why and what to do
     * @throws IOException if the file could not be written
     */
    void edit(JsonNode body) throws NotPossible, IOException;

    /**
     * Puts a look into the plan, and a shot that is made in it.
     *
     * @param look with a name that no look of the plan has
     * @param base whose people and camera the shot has
     * @param says what it is, for undo
     * @throws NotPossible if it was refused; the words say why and what to do
     * @throws IOException if the file could not be written
     */
    void put(Look look, Shot base, String says) throws NotPossible, IOException;

    /**
     * Mends what a finding is about, by an edit of the plan.
     *
     * @param finding its id
     * @throws NotPossible if it is no longer there or cannot be mended from here
     * @throws IOException if the file could not be written
     */
    void mend(String finding) throws NotPossible, IOException;
}
