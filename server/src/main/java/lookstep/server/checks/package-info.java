/**
 * What is to be said of a plan before the day: each finding with its numbers, its reason and a mend
 * that can be carried out. Pure: the same plan always gives the same report. Must not know of
 * pages, files or time, and nothing of the running order.
 */
package lookstep.server.checks;
