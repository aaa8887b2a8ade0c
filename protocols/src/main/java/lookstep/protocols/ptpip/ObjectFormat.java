package lookstep.protocols.ptpip;

/** What kind of file an object is (ISO 15740; JP2 and DNG from memory). */
public enum ObjectFormat {
    /** A file that is no image, as far as the camera says; raw files are often called so. */
    UNDEFINED(0x3000),
    /** A folder. */
    ASSOCIATION(0x3001),
    UNDEFINED_IMAGE(0x3800),
    EXIF_JPEG(0x3801),
    TIFF_EP(0x3802),
    JFIF(0x3808),
    PNG(0x380B),
    TIFF(0x380D),
    JP2(0x380F),
    DNG(0x3811);

    private final int code;

    ObjectFormat(int code) {
        this.code = code;
    }

    /** As it is on the wire, 16 bits. */
    public int code() {
        return code;
    }

    /** An image by its code, or one that may be: undefined, or a maker's own (0xB000 to 0xBFFF). */
    public static boolean maybePicture(int code) {
        return code == UNDEFINED.code
                || (code >= 0x3800 && code <= 0x3FFF)
                || (code >= 0xB000 && code <= 0xBFFF);
    }
}
