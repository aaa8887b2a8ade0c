package lookstep.protocols.gdtf;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A DMX value as GDTF writes it (table 1): {@code v/n}, or {@code v/ns} for byte shifting.
 *
 * @param value 0 to 256^octets - 1
 * @param octets 1 to 4, in which the value is held
 * @param shifted true if wider channels get zeros behind it, false if they get it over and over
 */
public record DmxValue(long value, int octets, boolean shifted) {
    private static final Pattern SYNTAX = Pattern.compile("(\\d{1,10})/([1-4])(s?)");

    public DmxValue {
        if (octets < 1 || octets > Limits.CHANNEL_OCTETS || value < 0 || value > max(octets)) {
            throw new IllegalArgumentException(value + " in " + octets + " octets");
        }
    }

    /** From its text; empty if that is none. "None" is no value and not read here. */
    public static Optional<DmxValue> of(String text) {
        Matcher m = SYNTAX.matcher(text.strip());
        if (!m.matches()) {
            return Optional.empty();
        }
        long value = Long.parseLong(m.group(1));
        int octets = Integer.parseInt(m.group(2));
        return value > max(octets)
                ? Optional.empty()
                : Optional.of(new DmxValue(value, octets, !m.group(3).isEmpty()));
    }

    /**
     * What it is in a channel of so many octets. Narrower channels take the most significant octets
     * (the standard shows only widening).
     *
     * @param wanted octets of the channel, 1 to 4
     */
    public long in(int wanted) {
        long result = 0;
        for (int i = 0; i < wanted; i++) {
            result = result * 256 + octet(i);
        }
        return result;
    }

    /** The octet at {@code i}, the most significant first, as in a channel without end. */
    private long octet(int i) {
        if (i >= octets && shifted) {
            return 0;
        }
        int above = 8 * (octets - 1 - (i % octets));
        return (value >> above) & 0xFF;
    }

    /** The greatest value of so many octets. */
    static long max(int octets) {
        return (1L << (8 * octets)) - 1;
    }
}
