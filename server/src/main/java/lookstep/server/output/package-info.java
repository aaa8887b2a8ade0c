/**
 * The loop that keeps light on the line: packets at a steady rate, lines lost and found again,
 * changes of look as whole packets. Must not know of pages, files or why a look changes.
 */
package lookstep.server.output;
