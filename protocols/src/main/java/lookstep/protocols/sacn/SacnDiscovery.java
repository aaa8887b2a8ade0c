package lookstep.protocols.sacn;

import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedSet;
import java.util.UUID;

/**
 * One page of the list of universes that a sender sends (ANSI E1.31-2018, Table 4-3, clauses 6.4
 * and 8). Synchronisation addresses may be among them.
 *
 * @param cid who sends
 * @param sourceName what the sender calls itself, at most 63 octets of UTF-8
 * @param page 0..255, this page
 * @param lastPage 0..255, the last page of the list; not before this one
 * @param universes at most 512, ascending, 1..63999 each
 */
public record SacnDiscovery(
        UUID cid, String sourceName, int page, int lastPage, List<Integer> universes)
        implements SacnReading {
    /** Most universes on one page. */
    public static final int MOST_UNIVERSES = 512;

    static final int FRAMING_VECTOR = 0x0000_0002;

    private static final int UNIVERSE_LIST = 0x0000_0001;

    /** Octets of a page without universes. */
    private static final int LEAST_OCTETS = 120;

    public SacnDiscovery {
        SourceName.require(sourceName);
        universes = List.copyOf(universes);
        String wrong = wrong(page, lastPage, universes);
        if (wrong != null) {
            throw new IllegalArgumentException(wrong);
        }
    }

    /** The whole list, on as many pages as it takes; one page if there are no universes. */
    public static List<SacnDiscovery> pages(
            UUID cid, String sourceName, SortedSet<Integer> universes) {
        List<Integer> all = List.copyOf(universes);
        int lastPage = Math.max(0, all.size() - 1) / MOST_UNIVERSES;
        List<SacnDiscovery> pages = new ArrayList<>();
        for (int page = 0; page <= lastPage; page++) {
            int from = page * MOST_UNIVERSES;
            int to = Math.min(all.size(), from + MOST_UNIVERSES);
            pages.add(new SacnDiscovery(cid, sourceName, page, lastPage, all.subList(from, to)));
        }
        return pages;
    }

    /** The datagram: 120 octets and two for each universe. */
    public byte[] encode() {
        ByteBuffer out = ByteBuffer.allocate(LEAST_OCTETS + 2 * universes.size());
        RootLayer.put(out, RootLayer.EXTENDED, cid);
        Pdu.put(out);
        out.putInt(FRAMING_VECTOR);
        SourceName.put(out, sourceName);
        out.putInt(0); // reserved
        Pdu.put(out);
        out.putInt(UNIVERSE_LIST).put((byte) page).put((byte) lastPage);
        universes.forEach(universe -> out.putShort(universe.shortValue()));
        return out.array();
    }

    static SacnDiscovery read(UUID cid, ByteBuffer in) throws BadPacketException {
        if (in.capacity() < LEAST_OCTETS) {
            throw Pdu.cut("universe discovery packet");
        }
        Pdu.skip(in, "framing layer");
        String sourceName = SourceName.read(in);
        in.getInt(); // reserved
        Pdu.read(in, "universe discovery layer");
        Pdu.expect(in.getInt(), UNIVERSE_LIST, "universe discovery layer: vector");
        int page = Byte.toUnsignedInt(in.get());
        int lastPage = Byte.toUnsignedInt(in.get());
        if (in.remaining() % 2 != 0) {
            throw new BadPacketException("universe discovery layer: ends with half a universe");
        }
        List<Integer> universes = new ArrayList<>();
        while (in.hasRemaining()) {
            universes.add(Short.toUnsignedInt(in.getShort()));
        }
        String wrong = wrong(page, lastPage, universes);
        if (wrong != null) {
            throw new BadPacketException(wrong);
        }
        return new SacnDiscovery(cid, sourceName, page, lastPage, universes);
    }

    /** What is wrong, or null. */
    private static String wrong(int page, int lastPage, List<Integer> universes) {
        if (page < 0 || lastPage > 255 || page > lastPage) {
            return "page %d of last page %d: must be 0 to 255, and not past the last"
                    .formatted(page, lastPage);
        }
        if (universes.size() > MOST_UNIVERSES) {
            return "%d universes on a page: must be at most %d"
                    .formatted(universes.size(), MOST_UNIVERSES);
        }
        int before = 0;
        for (int universe : universes) {
            if (!SacnAddress.isUniverse(universe)) {
                return "universe %d: must be %d to %d"
                        .formatted(universe, SacnAddress.LEAST_UNIVERSE, SacnAddress.MOST_UNIVERSE);
            }
            if (universe <= before) {
                return "universe %d after %d: must be ascending".formatted(universe, before);
            }
            before = universe;
        }
        return null;
    }
}
