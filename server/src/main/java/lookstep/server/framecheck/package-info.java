/**
 * What a photographer's assistant would say of a frame within a second: its settings, light,
 * sharpness and places against the plan, in plain words. Must not know how a frame came in, who
 * reads the words, or what the time is.
 */
package lookstep.server.framecheck;
