/**
 * Edits a plan file as its author would: the text is cut and filled in place, so that comments,
 * order and style stay, and what somebody else wrote into the file meanwhile is merged or told,
 * never lost. Must not know what a plan means (only that a reader takes it), nor pages and lights.
 */
package lookstep.server.plan.edit;
