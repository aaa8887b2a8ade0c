/**
 * Looks that nobody has planned yet: mixed by hand from what the rig can do, or suggested, and put
 * into the plan when somebody likes them. Must not know of pages or of the journal.
 */
package lookstep.server.tryout;
