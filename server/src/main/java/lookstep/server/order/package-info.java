/**
 * The running order: which shots fit the window and in what order, the re-cut when time is lost or
 * won, and the pace that a shoot turns out to have. Must not know the plan file, the pages, the
 * clock or a random source of its own: the same question always has the same answer.
 */
package lookstep.server.order;
