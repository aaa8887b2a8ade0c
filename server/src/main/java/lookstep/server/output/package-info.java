/**
 * The loops that keep light on line and network: packets at a steady rate, both lost and found
 * again, changes of look as whole packets within the limit on flashing. Must not know of pages,
 * files or why a look changes.
 */
package lookstep.server.output;
