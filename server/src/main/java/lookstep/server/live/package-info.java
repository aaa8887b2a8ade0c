/**
 * The one state of the shoot, changed only by events, and the journal that holds them. Must not
 * know of pages or outputs, nor what a change does to the light, nor open any file but the journal.
 */
package lookstep.server.live;
