/**
 * The plan put on the model's stage: what a shot will look like before it is made. Must not know of
 * pages, lines or what really happens.
 */
package lookstep.server.prediction;
