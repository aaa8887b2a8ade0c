package lookstep.server.output;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.net.InetSocketAddress;
import java.util.List;
import java.util.OptionalInt;
import java.util.Set;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Ranges: ANSI E1.31-2018, clauses 6.2.2, 6.2.3, 6.2.7 and 9.1.1. */
class SacnSetupTest {
    private static final UUID CID = UUID.fromString("c5a1e57e-0b5e-4c0d-9d1f-1a2b3c4d5e6f");
    private static final InetSocketAddress NODE = new InetSocketAddress("192.0.2.5", 5568);

    private static SacnSetup setup(
            boolean multicast,
            List<InetSocketAddress> unicast,
            Set<Integer> universes,
            int priority,
            OptionalInt sync,
            UUID cid,
            String name) {
        return new SacnSetup("eth0", multicast, unicast, universes, priority, sync, cid, name);
    }

    private static void refused(String says, Executable make) {
        assertEquals(says, assertThrows(IllegalArgumentException.class, make).getMessage());
    }

    private static void refusedName(String name, String says) {
        String message =
                assertThrows(
                                IllegalArgumentException.class,
                                () ->
                                        setup(
                                                true,
                                                List.of(),
                                                Set.of(1),
                                                100,
                                                OptionalInt.empty(),
                                                CID,
                                                name))
                        .getMessage();
        assertTrue(message.contains(says), message);
    }

    @Test
    void aGoodOneIsKeptAsItIsWithItsUniversesInOrder() {
        SacnSetup good =
                setup(
                        false,
                        List.of(NODE),
                        Set.of(63_999, 1, 7),
                        200,
                        OptionalInt.of(7),
                        CID,
                        "Lookstep");
        assertEquals(List.of(1, 7, 63_999), List.copyOf(good.universes()));
        assertEquals("eth0", good.port().name());
    }

    @Test
    void whatDoesNotHoldIsRefusedWithTheMend() {
        OptionalInt none = OptionalInt.empty();
        refused(
                "nobody to send to: leave multicast on, or write a unicast address",
                () -> setup(false, List.of(), Set.of(1), 100, none, CID, "x"));
        refused(
                "an address is twice in the unicast list; write it once",
                () -> setup(true, List.of(NODE, NODE), Set.of(1), 100, none, CID, "x"));
        refused(
                "no universe to send; write at least one",
                () -> setup(true, List.of(), Set.of(), 100, none, CID, "x"));
        refused(
                "universe 64000; write 1 to 63999",
                () -> setup(true, List.of(), Set.of(1, 64_000), 100, none, CID, "x"));
        refused(
                "priority 201; write 0 to 200, 100 if there is no reason for another",
                () -> setup(true, List.of(), Set.of(1), 201, none, CID, "x"));
        refused(
                "synchronisation universe 0; write 1 to 63999",
                () -> setup(true, List.of(), Set.of(1), 100, OptionalInt.of(0), CID, "x"));
        refused(
                "the CID is all 0; make one with UUID.randomUUID()",
                () -> setup(true, List.of(), Set.of(1), 100, none, new UUID(0, 0), "x"));
        refused(
                "no network interface; write its name, such as eth0, or its IPv4 address",
                () -> new SacnSetup(" ", true, List.of(), Set.of(1), 100, none, CID, "x"));
        refused(
                "'239.255.0.1:5568' is no unicast address; write the IPv4 address of one machine,"
                        + " such as 192.168.1.20 or 192.168.1.20:5568",
                () ->
                        setup(
                                true,
                                List.of(new InetSocketAddress("239.255.0.1", 5568)),
                                Set.of(1),
                                100,
                                none,
                                CID,
                                "x"));
        refusedName(" ", "write letters");
        refusedName("a\u001b[2J", "write letters");
        refusedName("ü".repeat(32), "64 octets of UTF-8, must be at most 63");
    }

    @ParameterizedTest
    @CsvSource({
        "192.0.2.5, 192.0.2.5, 5568",
        "192.0.2.5:6000, 192.0.2.5, 6000",
        "127.0.0.1:1, 127.0.0.1, 1",
        "127.0.0.1:65535, 127.0.0.1, 65535",
        "localhost:7000, 127.0.0.1, 7000"
    })
    void unicastIsAHostAndPerhapsAPort(String text, String address, int port) {
        InetSocketAddress machine = SacnSetup.unicast(text);
        assertEquals(address, machine.getAddress().getHostAddress());
        assertEquals(port, machine.getPort());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                ":5568",
                "192.0.2.5:",
                "192.0.2.5:0",
                "192.0.2.5:65536",
                "192.0.2.5:5568:1",
                "192.0.2.5:+80",
                "0.0.0.0",
                "0.0.0.5",
                "5",
                "255.255.255.255",
                "239.255.0.1",
                "::1",
                "[::1]:5568"
            })
    void whatIsNoMachineIsRefusedWithTheMend(String text) {
        String says =
                assertThrows(IllegalArgumentException.class, () -> SacnSetup.unicast(text))
                        .getMessage();
        assertTrue(says.contains("is no unicast address; write the IPv4 address"), says);
    }

    /** .invalid never resolves (RFC 2606). */
    @Test
    void anUnknownNameIsRefusedWithTheMend() {
        refused(
                "'node.invalid': no machine of this name is known; write its IPv4 address, such as"
                        + " 192.168.1.20",
                () -> SacnSetup.unicast("node.invalid"));
    }

    @Test
    void numbersAreReadWithTheMend() {
        assertEquals(0, SacnSetup.priority("0"));
        assertEquals(200, SacnSetup.priority("200"));
        assertEquals(63_999, SacnSetup.universe("63999"));
        refused(
                "priority 'high'; write 0 to 200, 100 if there is no reason for another",
                () -> SacnSetup.priority("high"));
        refused(
                "priority 201; write 0 to 200, 100 if there is no reason for another",
                () -> SacnSetup.priority("201"));
        refused("universe '-1'; write 1 to 63999", () -> SacnSetup.universe("-1"));
        refused("universe 0; write 1 to 63999", () -> SacnSetup.universe("0"));
        refused(
                "universe '99999999999'; write 1 to 63999",
                () -> SacnSetup.universe("99999999999"));
    }
}
