/**
 * From a file that lies whole in the folder to a frame of the shoot: journal, preview, pages. Must
 * not know what the frames show, nor how a folder is watched.
 */
package lookstep.server.intake;
