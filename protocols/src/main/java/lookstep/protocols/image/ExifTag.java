package lookstep.protocols.image;

/**
 * Numbers of the Exif tags that are written or read (CIPA DC-008; via the tables of ExifTool
 * 12.57).
 */
final class ExifTag {
    // in the first directory; the sizes, strips and tiles are TIFF 6.0's
    static final int NEW_SUBFILE_TYPE = 0x00FE;
    static final int IMAGE_WIDTH = 0x0100;
    static final int IMAGE_LENGTH = 0x0101;
    static final int BITS_PER_SAMPLE = 0x0102;
    static final int COMPRESSION = 0x0103;
    static final int PHOTOMETRIC_INTERPRETATION = 0x0106;
    static final int MAKE = 0x010F;
    static final int MODEL = 0x0110;
    static final int STRIP_OFFSETS = 0x0111;
    static final int ORIENTATION = 0x0112;
    static final int SAMPLES_PER_PIXEL = 0x0115;
    static final int ROWS_PER_STRIP = 0x0116;
    static final int STRIP_BYTE_COUNTS = 0x0117;
    static final int X_RESOLUTION = 0x011A;
    static final int Y_RESOLUTION = 0x011B;
    static final int RESOLUTION_UNIT = 0x0128;
    static final int TILE_OFFSETS = 0x0144;
    static final int TILE_BYTE_COUNTS = 0x0145;
    static final int SUB_DIRECTORIES = 0x014A;
    static final int JPEG_OFFSET = 0x0201;
    static final int JPEG_LENGTH = 0x0202;
    static final int Y_CB_CR_POSITIONING = 0x0213;
    static final int EXIF_DIRECTORY = 0x8769;
    static final int DNG_VERSION = 0xC612;
    static final int DNG_BACKWARD_VERSION = 0xC613;
    static final int UNIQUE_CAMERA_MODEL = 0xC614;

    // in the Exif directory
    static final int EXPOSURE_TIME = 0x829A;
    static final int F_NUMBER = 0x829D;
    static final int SENSITIVITY = 0x8827;
    static final int SENSITIVITY_TYPE = 0x8830;
    static final int RECOMMENDED_EXPOSURE_INDEX = 0x8832;
    static final int EXIF_VERSION = 0x9000;
    static final int DATE_TIME_ORIGINAL = 0x9003;
    static final int DATE_TIME_DIGITIZED = 0x9004;
    static final int OFFSET_TIME_ORIGINAL = 0x9011;
    static final int COMPONENTS_CONFIGURATION = 0x9101;
    static final int SUBJECT_DISTANCE = 0x9206;
    static final int FOCAL_LENGTH = 0x920A;
    static final int USER_COMMENT = 0x9286;
    static final int SUB_SEC_TIME_ORIGINAL = 0x9291;
    static final int FLASHPIX_VERSION = 0xA000;
    static final int COLOUR_SPACE = 0xA001;
    static final int PIXEL_X_DIMENSION = 0xA002;
    static final int PIXEL_Y_DIMENSION = 0xA003;
    static final int WHITE_BALANCE = 0xA403;
    static final int BODY_SERIAL_NUMBER = 0xA431;
    static final int LENS_MODEL = 0xA434;

    private ExifTag() {}
}
