/**
 * What plates say of the real set: where people are in them, how much each light brings to people,
 * background and floor against what the model computes. Must not know of pages, nor of how plates
 * are taken.
 */
package lookstep.server.measuring;
