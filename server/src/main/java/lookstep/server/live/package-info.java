/**
 * The one state of the shoot, changed only by events, and the journal that holds them. Must not
 * know of pages, lights or files of pictures.
 */
package lookstep.server.live;
