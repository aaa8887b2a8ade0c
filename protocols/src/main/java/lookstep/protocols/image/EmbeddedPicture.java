package lookstep.protocols.image;

/**
 * A JPEG picture inside a picture file, as screens can show it: 8 bits, grey or colour, baseline,
 * extended or progressive.
 *
 * @param kind by what it was found
 * @param start of its first octet in the file
 * @param length octets; all inside the file
 * @param width pixels as stored, 1..65535
 * @param height pixels as stored, 1..65535
 */
public record EmbeddedPicture(Kind kind, long start, long length, int width, int height) {
    /** By what a picture was found. */
    public enum Kind {
        /**
         * The thumbnail of Exif (CIPA DC-008). Often 160 x 120 with black bars around a picture of
         * another shape.
         */
        EXIF_THUMBNAIL,
        /** A large thumbnail of the MPF index (CIPA DC-007). */
        MPF_LARGE,
        /** A JPEG that a directory of a RAW file names. */
        RAW_PREVIEW
    }

    /** Pixels of its longer side. */
    public int longSide() {
        return Math.max(width, height);
    }
}
