/**
 * A second copy of each original, in a second place, as it arrives: written, read back, compared,
 * and only then called safe. Must not know what a shoot is or how files come in; it reads originals
 * and never changes them.
 */
package lookstep.server.keeping;
