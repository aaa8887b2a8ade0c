/**
 * Frames as they come: a folder is watched, a picture is taken when it is whole, a preview is made
 * for the tablet. Originals are only ever read. Must not know the web, the plan or the lights.
 */
package lookstep.server.frames;
