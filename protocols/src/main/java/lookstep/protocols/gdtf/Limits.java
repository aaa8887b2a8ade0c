package lookstep.protocols.gdtf;

/**
 * How much of a file is taken. Our own figures: some ten times what large honest files need, and
 * small enough that no file can fill the memory.
 */
final class Limits {
    /** Octets of the archive, models and pictures included. */
    static final int ARCHIVE_OCTETS = 64 << 20;

    /** Entries in the archive. */
    static final int ENTRIES = 4096;

    /** Octets of description.xml, inflated. */
    static final int XML_OCTETS = 16 << 20;

    /** Inflated to deflated octets; XML of many alike channels comes to about 50. */
    static final int RATIO = 200;

    /** So many octets may come out whatever the ratio. */
    static final int RATIO_FREE_OCTETS = 1 << 20;

    /** Elements in each other. */
    static final int DEPTH = 64;

    static final int ELEMENTS = 250_000;
    static final int ATTRIBUTES = 64;

    /** Characters of one attribute. */
    static final int VALUE_CHARS = 1 << 16;

    /** Characters between the tags, blanks not counted; the format has none that matter. */
    static final int TEXT_CHARS = 1 << 20;

    /** Characters of a name that is shown. */
    static final int SHOWN_CHARS = 120;

    /** Notes that anyone would read. */
    static final int NOTES = 100;

    /** Slots that one DMX channel takes: 32 bit. */
    static final int CHANNEL_OCTETS = 4;

    // of each kind, so that nothing that is looked up among them takes long
    static final int ATTRIBUTE_DEFINITIONS = 2000;
    static final int EMITTERS = 256;
    static final int PROFILES = 256;
    static final int TOP_GEOMETRIES = 1000;
    static final int MODES = 100;
    static final int CHANNELS = 2048;
    static final int FUNCTIONS = 256;
    static final int SETS = 512;
    static final int RELATIONS = 4096;

    /** Geometries of a mode once its references are followed. */
    static final int PLACED_GEOMETRIES = 5000;

    /** DMX channels of a mode once its references are followed. */
    static final int PLACED_CHANNELS = 4096;

    /** Any number in the file, either side of nought. */
    static final double NUMBER = 1e9;

    private Limits() {}
}
