/**
 * A set without the gear: lights that listen to line and network and a camera that sends frames,
 * behind the same {@code Gear} as the real ones. The only importer of the simulator's gear; must
 * not know of pages or the journal.
 */
package lookstep.server.rehearsal;
