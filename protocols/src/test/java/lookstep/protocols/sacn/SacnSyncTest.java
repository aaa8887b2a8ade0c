package lookstep.protocols.sacn;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;

/** Layout and ranges: ANSI E1.31-2018, Table 4-2 and clause 6.3. */
class SacnSyncTest {
    @Test
    void octetsAreThoseOfTheStandardBothWays() {
        assertArrayEquals(Golden.SYNC, Golden.SYNC_SAYS.encode());
        assertEquals(Golden.SYNC_SAYS, SacnReader.read(Golden.SYNC));
    }

    @Test
    void whatIsReservedIsNotLookedAt() {
        byte[] packet = Golden.SYNC.clone();
        packet[47] = 1;
        packet[48] = 2;
        assertEquals(Golden.SYNC_SAYS, SacnReader.read(packet));
    }

    /** Clause 6.3.3.1: 0 is not sent, and ignored. */
    @Test
    void addressZeroIsIgnored() {
        byte[] packet = Golden.SYNC.clone();
        packet[45] = 0;
        packet[46] = 0;
        assertEquals(
                new SacnFault("synchronisation address is 0, must be 1 to 63999"),
                SacnReader.read(packet));
    }

    @Test
    void whatCannotBeSentIsRefused() {
        assertThrows(IllegalArgumentException.class, () -> new SacnSync(Golden.CID, 0, 0));
        assertThrows(IllegalArgumentException.class, () -> new SacnSync(Golden.CID, 0, 64_000));
        assertThrows(IllegalArgumentException.class, () -> new SacnSync(Golden.CID, 256, 1));
        assertThrows(IllegalArgumentException.class, () -> new SacnSync(Golden.CID, -1, 1));
    }
}
