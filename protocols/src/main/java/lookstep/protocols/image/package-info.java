/**
 * JPEG files as a camera writes them: whether one is whole, its size, and its Exif words (ITU-T
 * T.81, CIPA DC-008, CIPA DC-007). Must not decode a picture, nor know where files come from.
 */
package lookstep.protocols.image;
