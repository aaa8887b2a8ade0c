package lookstep.protocols.dmx;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/**
 * The receiving end of ANSI E1.11: takes breaks and octets as they come, cut anywhere, and says
 * what it made of them. It has no clock: whoever listens to the line says when it was quiet. Not
 * for more than one thread.
 *
 * <p>On a real line the break marks the packets ({@link #byBreak}). A pseudo-terminal carries no
 * break; there all packets have one known length and are told apart by counting ({@link
 * #byLength}).
 */
public final class DmxDecoder {
    /** Codes that a packet may begin with where there is no break to tell (see byLength). */
    private static final Set<Integer> KNOWN_CODES =
            Set.of(
                    StartCode.NULL,
                    StartCode.TEXT,
                    StartCode.TEST,
                    StartCode.UTF8_TEXT,
                    StartCode.ORGANISATION,
                    StartCode.RDM,
                    StartCode.SYSTEM_INFORMATION);

    private enum Place {
        /** The next octet is a START code. */
        START,
        /** The next octet is a slot. */
        SLOTS,
        /** Octets have no meaning until a break or a pause. */
        LOST,
        /** All slots of a packet are in; only a break may follow. */
        FULL
    }

    private final int mostSlots;
    private final boolean breaks;
    private final byte[] slots;
    private Place place;
    private int startCode;
    private int count;
    private boolean strayNoted;

    private DmxDecoder(int mostSlots, boolean breaks) {
        this.mostSlots = mostSlots;
        this.breaks = breaks;
        this.slots = new byte[mostSlots];
        this.place = breaks ? Place.LOST : Place.START;
    }

    /** For a line whose breaks are seen: packets of any length, 0 to 512 slots. */
    public static DmxDecoder byBreak() {
        return new DmxDecoder(512, true);
    }

    /**
     * For a line that carries no break.
     *
     * @param octets length of every packet, START code included: 2 to 513
     */
    public static DmxDecoder byLength(int octets) {
        if (octets < 2 || octets > 513) {
            throw new IllegalArgumentException(octets + " octets: must be 2 to 513");
        }
        return new DmxDecoder(octets - 1, false);
    }

    /** A break: ends the packet before it, if one was short of 512 slots, and begins the next. */
    public List<Received> breakSeen() {
        List<Received> made = new ArrayList<>(1);
        if (place == Place.START && breaks) {
            made.add(new Received.Fault("a break without a START code after it"));
        } else if (place == Place.SLOTS) {
            if (breaks) {
                made.add(packet());
            } else {
                made.add(cutShort());
            }
        }
        begin(Place.START);
        return made;
    }

    /** Octets, in the order in which they came; any number. */
    public List<Received> received(byte[] octets) {
        return received(octets, 0, octets.length);
    }

    /** Octets {@code from} to before {@code to} of an array. */
    public List<Received> received(byte[] octets, int from, int to) {
        List<Received> made = new ArrayList<>(1);
        for (int i = from; i < to; i++) {
            one(octets[i], made);
        }
        return made;
    }

    /**
     * A character whose stop bits were wrong. It and the rest of its packet are dropped; the slots
     * before it stand (E1.11 on improperly framed slots, from memory).
     */
    public List<Received> badCharacter() {
        List<Received> made = new ArrayList<>(2);
        if (place == Place.SLOTS && breaks) {
            made.add(packet());
        }
        if (place != Place.LOST || !strayNoted) {
            made.add(new Received.Fault("a character without its stop bits"));
            strayNoted = true;
        }
        place = Place.LOST;
        return made;
    }

    /**
     * The line was quiet for longer than the gaps inside a packet. Where packets are counted, a
     * packet that is not full is dropped and the next octet is a START code; where breaks tell, a
     * pause means nothing.
     */
    public List<Received> lineQuiet() {
        List<Received> made = new ArrayList<>(1);
        if (!breaks) {
            if (place == Place.SLOTS) {
                made.add(cutShort());
            }
            begin(Place.START);
        }
        return made;
    }

    private void one(byte octet, List<Received> made) {
        switch (place) {
            case START -> {
                startCode = octet & 0xFF;
                if (!breaks && !KNOWN_CODES.contains(startCode)) {
                    made.add(
                            new Received.Fault(
                                    "0x%02X where a START code should be: the place in the packet"
                                                    .formatted(startCode)
                                            + " is lost until the line is quiet"));
                    strayNoted = true;
                    place = Place.LOST;
                } else {
                    count = 0;
                    place = Place.SLOTS;
                }
            }
            case SLOTS -> {
                slots[count++] = octet;
                if (count == mostSlots) {
                    made.add(packet());
                    begin(breaks ? Place.FULL : Place.START);
                }
            }
            case FULL -> {
                made.add(new Received.Fault("more than 512 slots after one break"));
                strayNoted = true;
                place = Place.LOST;
            }
            case LOST -> {
                if (!strayNoted) {
                    made.add(new Received.Fault("octets before the first break"));
                    strayNoted = true;
                }
            }
        }
    }

    private void begin(Place at) {
        place = at;
        count = 0;
        strayNoted = false;
    }

    private Received packet() {
        byte[] came = new byte[count];
        System.arraycopy(slots, 0, came, 0, count);
        return new Received.Packet(startCode, came);
    }

    private Received cutShort() {
        return new Received.Fault(
                "a packet of %d octets instead of %d: dropped".formatted(count + 1, mostSlots + 1));
    }
}
