package lookstep.protocols.ptpip;

/** The value of a setting. */
public sealed interface PropertyValue {
    /**
     * A number.
     *
     * @param number in the property's own unit; all 64 bits of the largest type
     */
    record Whole(long number) implements PropertyValue {}

    /**
     * Words.
     *
     * @param text at most 254 units
     */
    record Text(String text) implements PropertyValue {}
}
