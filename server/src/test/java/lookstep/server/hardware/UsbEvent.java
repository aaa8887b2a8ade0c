package lookstep.server.hardware;

/**
 * One request to the adapter that bears on the line, at the time the emulated USB port saw it. The
 * names are those of tshark's dissector for this class of adapter.
 */
sealed interface UsbEvent {
    /** Since the Unix epoch. */
    long atNanos();

    /**
     * The speed.
     *
     * @param divisor of the adapter's 3 MHz clock: the low 14 bits are whole, those above are
     *     fractions; 0x000c is 250 000 bit/s
     */
    record SetBaudRate(long atNanos, int divisor) implements UsbEvent {}

    /**
     * The format of a character, and the break that travels in the same request.
     *
     * @param parity 0 for none
     * @param twoStopBits false for any other number
     * @param breakOn true while the line is to be held at space
     */
    record SetData(long atNanos, int dataBits, int parity, boolean twoStopBits, boolean breakOn)
            implements UsbEvent {}

    /**
     * One transfer of bytes for the line.
     *
     * @param hex two digits each
     */
    record Sent(long atNanos, String hex) implements UsbEvent {}
}
