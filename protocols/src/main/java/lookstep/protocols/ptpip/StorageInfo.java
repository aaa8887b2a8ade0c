package lookstep.protocols.ptpip;

/**
 * What a card is (ISO 15740, StorageInfo dataset).
 *
 * @param storageType code of the standard
 * @param filesystemType code of the standard
 * @param access 0 to read and write, others for less
 * @param capacityOctets in all, 64 bits
 * @param freeOctets left, 64 bits
 * @param freeImages how many pictures still fit, as the camera thinks, 32 bits
 * @param description for people
 * @param volumeLabel for people
 */
public record StorageInfo(
        int storageType,
        int filesystemType,
        int access,
        long capacityOctets,
        long freeOctets,
        int freeImages,
        String description,
        String volumeLabel) {
    /** The dataset. */
    public byte[] encode() {
        return new FieldWriter()
                .u16(storageType)
                .u16(filesystemType)
                .u16(access)
                .u64(capacityOctets)
                .u64(freeOctets)
                .u32(freeImages)
                .string(description)
                .string(volumeLabel)
                .written();
    }

    /**
     * Reads the dataset.
     *
     * @throws BadBytesException if it is too short
     */
    public static StorageInfo read(byte[] dataset) throws BadBytesException {
        FieldReader in = new FieldReader(dataset, "StorageInfo");
        return new StorageInfo(
                in.u16(),
                in.u16(),
                in.u16(),
                in.u64(),
                in.u64(),
                in.u32(),
                in.string(),
                in.string());
    }
}
