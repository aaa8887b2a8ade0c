/**
 * Files that nobody may lose: written under a hidden name, synced, put under a free name in one
 * step, so that a crash leaves no half file under a name that counts. Must not know where files
 * come from or what is in them.
 */
package lookstep.server.disk;
