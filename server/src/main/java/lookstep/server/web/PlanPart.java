package lookstep.server.web;

/**
 * How the plan file is.
 *
 * @param revision one more with each change of it
 * @param problem what is wrong with the file as it is now; empty if nothing
 * @param says what came of the newest change; empty if there is nothing to say
 */
public record PlanPart(long revision, String problem, String says) {
    /** As it was read at the start. */
    public static final PlanPart FIRST = new PlanPart(0, "", "");
}
