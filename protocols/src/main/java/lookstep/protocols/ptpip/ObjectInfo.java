package lookstep.protocols.ptpip;

/**
 * What an object on a card is (ISO 15740, ObjectInfo dataset).
 *
 * @param storage on which it is
 * @param format code, as of {@link ObjectFormat}
 * @param protection 0 none, 1 read only
 * @param sizeOctets of the file, 0 to {@link #SIZE_TOO_LARGE}
 * @param thumbFormat code, as of {@link ObjectFormat}
 * @param thumbOctets of the small picture
 * @param thumbWidth pixels
 * @param thumbHeight pixels
 * @param width pixels
 * @param height pixels
 * @param bitDepth bits a pixel
 * @param parent handle of the folder, 0 for none
 * @param associationType 1 for a folder
 * @param associationDesc what else is to be known of a folder
 * @param sequence number in the order of making, if the camera counts
 * @param fileName whatever the camera says: not to be trusted as a path
 * @param captureDate as {@link DateTime}, if it is one
 * @param modificationDate as {@link DateTime}, if it is one
 * @param keywords for people
 */
public record ObjectInfo(
        int storage,
        int format,
        int protection,
        long sizeOctets,
        int thumbFormat,
        long thumbOctets,
        long thumbWidth,
        long thumbHeight,
        long width,
        long height,
        long bitDepth,
        int parent,
        int associationType,
        int associationDesc,
        long sequence,
        String fileName,
        String captureDate,
        String modificationDate,
        String keywords) {
    /** The size of a file that is too large for its field: 4 GiB and more. */
    public static final long SIZE_TOO_LARGE = 0xFFFF_FFFFL;

    /** Whether it is a folder, or another thing that only holds objects. */
    public boolean isAssociation() {
        return format == ObjectFormat.ASSOCIATION.code();
    }

    /** The dataset. */
    public byte[] encode() {
        return new FieldWriter()
                .u32(storage)
                .u16(format)
                .u16(protection)
                .u32((int) sizeOctets)
                .u16(thumbFormat)
                .u32((int) thumbOctets)
                .u32((int) thumbWidth)
                .u32((int) thumbHeight)
                .u32((int) width)
                .u32((int) height)
                .u32((int) bitDepth)
                .u32(parent)
                .u16(associationType)
                .u32(associationDesc)
                .u32((int) sequence)
                .string(fileName)
                .string(captureDate)
                .string(modificationDate)
                .string(keywords)
                .written();
    }

    /**
     * Reads the dataset.
     *
     * @throws BadBytesException if it is too short
     */
    public static ObjectInfo read(byte[] dataset) throws BadBytesException {
        FieldReader in = new FieldReader(dataset, "ObjectInfo");
        return new ObjectInfo(
                in.u32(),
                in.u16(),
                in.u16(),
                Integer.toUnsignedLong(in.u32()),
                in.u16(),
                Integer.toUnsignedLong(in.u32()),
                Integer.toUnsignedLong(in.u32()),
                Integer.toUnsignedLong(in.u32()),
                Integer.toUnsignedLong(in.u32()),
                Integer.toUnsignedLong(in.u32()),
                Integer.toUnsignedLong(in.u32()),
                in.u32(),
                in.u16(),
                in.u32(),
                Integer.toUnsignedLong(in.u32()),
                in.string(),
                in.string(),
                in.string(),
                in.string());
    }
}
