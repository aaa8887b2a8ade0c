package lookstep.protocols.ptpip;

import java.util.List;

/**
 * A list of numbers of 32 bits, as handles and storages come (ISO 15740, AUINT32).
 *
 * @param values all their bits
 */
public record Numbers(List<Integer> values) {
    public Numbers {
        values = List.copyOf(values);
    }

    /** The dataset: how many, then each. */
    public byte[] encode() {
        return new FieldWriter().u32Array(values).written();
    }

    /**
     * Reads the dataset.
     *
     * @throws BadBytesException if fewer follow than it says
     */
    public static Numbers read(byte[] dataset) throws BadBytesException {
        return new Numbers(new FieldReader(dataset, "list of numbers").u32Array());
    }
}
