package lookstep.protocols.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.net.Inet4Address;
import java.net.InetAddress;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lookstep.protocols.wire.NetworkInterfaces.Chosen;
import lookstep.protocols.wire.NetworkInterfaces.Seen;
import org.junit.jupiter.api.Test;

class NetworkInterfacesTest {
    private static Inet4Address ip(String text) throws Exception {
        return (Inet4Address) InetAddress.getByName(text);
    }

    private static List<Seen> some() throws Exception {
        return List.of(
                new Seen("lo", true, true, true, false, List.of(ip("127.0.0.1"))),
                new Seen("eth1", false, false, true, false, List.of(ip("192.0.2.9"))),
                new Seen("eth2", true, false, true, false, List.of()),
                new Seen("wlan0", true, false, true, true, List.of(ip("198.51.100.7"))),
                new Seen("tun0", true, false, false, false, List.of(ip("203.0.113.1"))),
                new Seen(
                        "eth0",
                        true,
                        false,
                        true,
                        false,
                        List.of(ip("192.0.2.2"), ip("192.0.2.3"))));
    }

    @Test
    void interfacesAreDescribedInPlainWordsUsableOnesFirst() throws Exception {
        assertEquals(
                List.of(
                        new NetworkAdapter(
                                "eth0",
                                List.of("192.0.2.2", "192.0.2.3"),
                                true,
                                true,
                                "network interface",
                                Optional.empty()),
                        new NetworkAdapter(
                                "tun0",
                                List.of("203.0.113.1"),
                                true,
                                false,
                                "network interface, takes no multicast: single machines only",
                                Optional.empty()),
                        new NetworkAdapter(
                                "wlan0",
                                List.of("198.51.100.7"),
                                true,
                                true,
                                "Wi-Fi: multicast is slow and lossy there, a cable is better",
                                Optional.empty()),
                        new NetworkAdapter(
                                "lo",
                                List.of("127.0.0.1"),
                                true,
                                true,
                                "this machine alone: nothing leaves it",
                                Optional.empty()),
                        new NetworkAdapter(
                                "eth1",
                                List.of("192.0.2.9"),
                                false,
                                true,
                                "network interface",
                                Optional.of("it is down. Plug its cable in, or switch it on.")),
                        new NetworkAdapter(
                                "eth2",
                                List.of(),
                                true,
                                true,
                                "network interface",
                                Optional.of(
                                        "it has no IPv4 address. Give it one, by DHCP or by"
                                                + " hand."))),
                NetworkInterfaces.describe(some()));
    }

    @Test
    void oneIsChosenByNameOrByAnyOfItsAddresses() throws Exception {
        assertEquals(new Chosen("eth0", ip("192.0.2.2")), NetworkInterfaces.choose("eth0", some()));
        assertEquals(
                new Chosen("eth0", ip("192.0.2.3")), NetworkInterfaces.choose("192.0.2.3", some()));
    }

    @Test
    void whatCannotBeUsedIsToldWithTheMend() throws Exception {
        assertEquals(
                "eth1: it is down. Plug its cable in, or switch it on.", refused("eth1", some()));
        assertEquals(
                "192.0.2.9: it is down. Plug its cable in, or switch it on.",
                refused("192.0.2.9", some()));
        assertEquals(
                "eth2: it has no IPv4 address. Give it one, by DHCP or by hand.",
                refused("eth2", some()));
        assertEquals(
                "eth7: no network interface of this name or address is here. Plug it in, or write"
                        + " one of these: eth0 (192.0.2.2), tun0 (203.0.113.1), wlan0"
                        + " (198.51.100.7), lo (127.0.0.1).",
                refused("eth7", some()));
        assertEquals(
                "eth7: no network interface of this name or address is here. None that is here can"
                        + " be used: plug a network cable in.",
                refused("eth7", some().subList(1, 3)));
    }

    @Test
    void listOfThisMachineHasItsLoopback() {
        List<NetworkAdapter> loopback = new ArrayList<>();
        for (NetworkAdapter adapter : NetworkInterfaces.list()) {
            assertFalse(adapter.name().isBlank());
            assertFalse(adapter.what().isBlank());
            if (adapter.ipv4().contains("127.0.0.1")) {
                loopback.add(adapter);
            }
        }
        assertEquals(1, loopback.size());
        assertTrue(loopback.get(0).usable());
        assertTrue(loopback.get(0).up());
    }

    private static String refused(String wanted, List<Seen> seen) {
        return assertThrows(LineLostException.class, () -> NetworkInterfaces.choose(wanted, seen))
                .getMessage();
    }
}
