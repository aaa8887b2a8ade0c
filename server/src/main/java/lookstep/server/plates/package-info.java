/**
 * Taking plates on the set: which frames with known light, one after the other, each checked when
 * it is there, and what they come to. Must not know of pages, or how light gets to the lamps and
 * frames into the folder.
 */
package lookstep.server.plates;
