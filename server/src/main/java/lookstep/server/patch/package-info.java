/**
 * Who has which slots, what could go wrong with that, and the walk from slot to slot that shows on
 * the set whether each light is addressed and set as planned. Pure: worked out from the plan alone;
 * must not know of outputs, pages or time.
 */
package lookstep.server.patch;
