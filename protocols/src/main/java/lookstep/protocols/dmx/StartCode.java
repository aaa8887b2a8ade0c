package lookstep.protocols.dmx;

/**
 * START codes, the octet before the slots that says what they are (ANSI E1.11-2008 (R2018); values
 * via the esp_dmx library, which cites it).
 */
public final class StartCode {
    /** Levels, 8 bits each: the only code a light may act on. */
    public static final int NULL = 0x00;

    /** ASCII text. */
    public static final int TEXT = 0x17;

    /** Test packet: all 512 slots hold 0x55. */
    public static final int TEST = 0x55;

    /** UTF-8 text. */
    public static final int UTF8_TEXT = 0x90;

    /** The next two slots name an organisation, whose own data follows. */
    public static final int ORGANISATION = 0x91;

    /** Remote device management, ANSI E1.20. */
    public static final int RDM = 0xCC;

    /** System information about the NULL packet before it. */
    public static final int SYSTEM_INFORMATION = 0xCF;

    private StartCode() {}
}
