package lookstep.protocols.sacn;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Collections;
import java.util.List;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Layout and ranges: ANSI E1.31-2018, Table 4-3 and clauses 6.4 and 8. */
class SacnDiscoveryTest {
    private static SortedSet<Integer> universes(int count) {
        return IntStream.rangeClosed(1, count).collect(TreeSet::new, TreeSet::add, TreeSet::addAll);
    }

    private static List<SacnDiscovery> pages(int universes) {
        return SacnDiscovery.pages(Golden.CID, "x", universes(universes));
    }

    @Test
    void octetsAreThoseOfTheStandardBothWays() {
        assertArrayEquals(Golden.DISCOVERY, Golden.DISCOVERY_SAYS.encode());
        assertEquals(Golden.DISCOVERY_SAYS, SacnReader.read(Golden.DISCOVERY));
    }

    /** Clause 6.1: 120 to 1144 octets. */
    @Test
    void aPageHoldsNoneTo512Universes() {
        byte[] empty = pages(0).get(0).encode();
        assertEquals(120, empty.length);
        assertEquals(pages(0).get(0), SacnReader.read(empty));
        byte[] full = pages(512).get(0).encode();
        assertEquals(1144, full.length);
        assertEquals(pages(512).get(0), SacnReader.read(full));
    }

    @Test
    void aLongListTakesPages() {
        assertEquals(1, pages(0).size());
        assertEquals(1, pages(512).size());
        List<SacnDiscovery> two = pages(513);
        assertEquals(2, two.size());
        assertEquals(List.of(0, 1), two.stream().map(SacnDiscovery::page).toList());
        assertEquals(List.of(1, 1), two.stream().map(SacnDiscovery::lastPage).toList());
        assertEquals(List.of(513), two.get(1).universes());
        List<SacnDiscovery> all = pages(63_999);
        assertEquals(125, all.size());
        assertEquals(
                List.copyOf(universes(63_999)),
                all.stream().flatMap(page -> page.universes().stream()).toList());
    }

    @ParameterizedTest
    @CsvSource({
        "118, 03, 'page 3 of last page 2: must be 0 to 255, and not past the last'",
        "121, 02, 'universe 2 after 2: must be ascending'",
        "121, 00, 'universe 0: must be 1 to 63999'",
        "124, FA, 'universe 64255: must be 1 to 63999'",
        "117, 02, 'universe discovery layer: vector is 2, must be 1'",
        "113, 0D, 'universe discovery layer: says 13 octets, has 14'",
        "43, 03, 'framing layer: vector 3 of an extended packet is unknown'"
    })
    void whatIsWrongIsSaid(int offset, String octet, String says) {
        byte[] packet = Golden.DISCOVERY.clone();
        packet[offset] = (byte) Integer.parseInt(octet, 16);
        assertEquals(new SacnFault(says), SacnReader.read(packet));
    }

    @Test
    void whatCannotBeSentIsRefused() {
        refused(0, 0, List.of(2, 1));
        refused(0, 0, List.of(1, 1));
        refused(0, 0, List.of(0));
        refused(0, 0, List.of(64_214));
        refused(1, 0, List.of());
        refused(0, 256, List.of());
        refused(-1, 0, List.of());
        refused(0, 0, Collections.nCopies(513, 1));
    }

    private static void refused(int page, int last, List<Integer> universes) {
        assertThrows(
                IllegalArgumentException.class,
                () -> new SacnDiscovery(Golden.CID, "x", page, last, universes));
    }
}
