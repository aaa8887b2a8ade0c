/**
 * Picture files as a camera writes them: whether one is whole, its size, its Exif words, and the
 * smaller pictures inside it (ITU-T T.81, CIPA DC-008, CIPA DC-007, TIFF 6.0). Must not decode a
 * picture, nor know where files come from.
 */
package lookstep.protocols.image;
