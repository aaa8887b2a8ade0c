/**
 * The call sheet on paper: a plan as a PDF, for stages without a network. Knows the plan and what
 * is worked out from it; must not know of pages, of gear, of what happens on the day, nor what time
 * it is.
 */
package lookstep.server.paper;
