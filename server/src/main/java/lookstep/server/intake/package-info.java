/**
 * From a file that lies whole in the folder to a frame of the shoot: in the journal, on the pages,
 * looked at, copied. Must not know how a folder is watched, what is looked at, or the pages.
 */
package lookstep.server.intake;
