package lookstep.server.output;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.net.DatagramPacket;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.NetworkInterface;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import lookstep.protocols.dmx.DmxPacket;
import lookstep.protocols.fixture.DimmingCurve;
import lookstep.protocols.fixture.Emitter;
import lookstep.protocols.fixture.Fixture;
import lookstep.protocols.fixture.Mode;
import lookstep.simulator.gear.Fault;
import lookstep.simulator.gear.PatchedLight;
import lookstep.simulator.gear.SacnFarEnd;
import lookstep.simulator.gear.SacnListener;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** The driver and the lights at the far end, over real sockets on this machine's loopback. */
@Timeout(60)
class SacnOverLoopbackTest {
    private static final long BEAT = 30_000_000;
    private static final InetAddress LOOPBACK = InetAddress.getLoopbackAddress();

    /** Three in a row that hardly another process uses: the port of multicast is shared. */
    private static final int FIRST = 1 + 3 * (int) (ProcessHandle.current().pid() % 20_000);

    private static final int SECOND = FIRST + 1;
    private static final int SYNC = FIRST + 2;

    /** 255 cd when full, so that a slot's level is its candela. */
    private static final Fixture LAMP =
            new Fixture(
                    "lamp",
                    "one emitter",
                    List.of(new Emitter("white", 0.50, 0.25, 255)),
                    DimmingCurve.LINEAR,
                    60,
                    50,
                    List.of(new Mode("8-bit", List.of(new Mode.Channel.Dimmer(1)))));

    private static PatchedLight lamp(String name, int slot) {
        return new PatchedLight(name, LAMP, LAMP.modes().get(0), slot);
    }

    private final Map<Integer, Integer> levels = new HashMap<>();
    private final List<LineState> told = new ArrayList<>();
    private final SacnListener lights =
            new SacnListener(
                    new TreeMap<>(
                            Map.of(
                                    FIRST, List.of(lamp("key", 1)),
                                    SECOND, List.of(lamp("rim", 512)))));
    private String loopback;
    private long now;

    @BeforeEach
    void findLoopback() throws Exception {
        loopback = NetworkInterface.getByInetAddress(LOOPBACK).getName();
    }

    private SacnDriver driver(
            boolean multicast, List<InetSocketAddress> unicast, OptionalInt sync) {
        SacnSetup setup =
                new SacnSetup(
                        loopback,
                        multicast,
                        unicast,
                        Set.of(FIRST, SECOND),
                        100,
                        sync,
                        UUID.fromString("c5a1e57e-0b5e-4c0d-9d1f-1a2b3c4d5e6f"),
                        "Desk");
        return new SacnDriver(
                setup.port(),
                setup,
                universe ->
                        at -> {
                            int level = levels.getOrDefault(universe, 0);
                            return DmxPacket.BLACK.withSlot(1, level).withSlot(512, level);
                        },
                told::add);
    }

    private void levels(int first, int second) {
        levels.put(FIRST, first);
        levels.put(SECOND, second);
    }

    private double candela(String light) {
        return lights.snapshot().intensities().get(light).y();
    }

    private String look() {
        return Math.round(candela("key")) + " " + Math.round(candela("rim"));
    }

    /** One beat, and as many datagrams as are to arrive of it. */
    private void beat(SacnDriver driver, SacnFarEnd end, int datagrams) {
        driver.doWork(now);
        take(end, datagrams);
        now += BEAT;
    }

    private void take(SacnFarEnd end, int datagrams) {
        int came = 0;
        while (came < datagrams) {
            came += end.doWork(now);
            Thread.onSpinWait();
            assertFalse(Thread.currentThread().isInterrupted(), "datagrams do not come");
        }
    }

    @Test
    void unicastLightsUpEveryUniverseAndSaysWhenItEnds() throws Exception {
        try (SacnFarEnd end = SacnFarEnd.unicast(LOOPBACK, 0, lights)) {
            try (SacnDriver driver = driver(false, List.of(end.address()), OptionalInt.empty())) {
                levels(200, 17);
                beat(driver, end, 2);
                assertEquals("200 17", look());
                levels(201, 18);
                beat(driver, end, 2);
                assertEquals("201 18", look());
                assertFalse(lights.dataLost(now));
            }
            take(end, 6);
        }
        assertEquals("201 18", look());
        assertTrue(lights.dataLost(FIRST, now));
        assertTrue(lights.dataLost(SECOND, now));
        assertEquals(List.of(), lights.troubles());
        assertEquals(List.of(true), told.stream().map(LineState::up).toList());
    }

    @Test
    void multicastWithSynchronisationLightsUpEveryUniverse() throws Exception {
        NetworkInterface network = NetworkInterface.getByName(loopback);
        try (SacnFarEnd end = SacnFarEnd.multicast(network, lights);
                SacnDriver driver = driver(true, List.of(), OptionalInt.of(SYNC))) {
            // of the first beat the far end learns where the synchronisation comes
            driver.doWork(now);
            take(end, 2);
            now += BEAT;
            for (int level = 1; level < 20; level++) {
                levels(level, 2 * level);
                beat(driver, end, 3);
                assertEquals(level + " " + 2 * level, look());
            }
            assertEquals(List.of(), lights.troubles());
        }
    }

    @Test
    void withSynchronisationNoLightIsAheadOfTheOthers() throws Exception {
        try (DatagramSocket node = new DatagramSocket(0, LOOPBACK);
                SacnDriver driver =
                        driver(
                                false,
                                List.of((InetSocketAddress) node.getLocalSocketAddress()),
                                OptionalInt.of(SYNC))) {
            for (int level = 0; level < 20; level++) {
                levels(level, level);
                driver.doWork(now);
                List<String> looks = new ArrayList<>();
                for (int i = 0; i < 3; i++) {
                    lights.received(receive(node), now);
                    looks.add(look());
                }
                if (level > 0) {
                    String before = (level - 1) + " " + (level - 1);
                    assertEquals(List.of(before, before, level + " " + level), looks);
                }
                now += BEAT;
            }
        }
    }

    private static byte[] receive(DatagramSocket node) throws Exception {
        DatagramPacket packet = new DatagramPacket(new byte[2000], 2000);
        node.setSoTimeout(30_000);
        node.receive(packet);
        return Arrays.copyOf(packet.getData(), packet.getLength());
    }

    @Test
    void aLookArrivesThoughDatagramsAreLost() throws Exception {
        try (SacnFarEnd end = SacnFarEnd.unicast(LOOPBACK, 0, lights);
                SacnDriver driver = driver(false, List.of(end.address()), OptionalInt.empty())) {
            end.misbehave(new Fault.LostDatagrams(2));
            levels(90, 91);
            beat(driver, end, 2);
            assertEquals("90 0", look());
            end.misbehave(new Fault.LostDatagrams(3));
            beat(driver, end, 2);
            assertEquals("90 91", look());
        }
    }

    @Test
    void aNodeThatIsOffStopsNoOther() throws Exception {
        InetSocketAddress off;
        try (DatagramSocket closed = new DatagramSocket(0, LOOPBACK)) {
            off = new InetSocketAddress(LOOPBACK, closed.getLocalPort());
        }
        try (SacnFarEnd end = SacnFarEnd.unicast(LOOPBACK, 0, lights);
                SacnDriver driver =
                        driver(false, List.of(off, end.address()), OptionalInt.empty())) {
            for (int level = 1; level < 20; level++) {
                levels(level, level);
                beat(driver, end, 2);
                assertEquals(level + " " + level, look());
            }
            LineState last = told.get(told.size() - 1);
            assertTrue(last.up());
            assertTrue(
                    last.says().contains("127.0.0.1:" + off.getPort() + ": nobody listens there."),
                    last.says());
            assertTrue(told.size() <= 2, told.toString());
        }
    }

    @Test
    void anInterfaceThatIsNotThereIsToldAndNotFatal() {
        SacnSetup setup =
                new SacnSetup(
                        "eth99",
                        true,
                        List.of(),
                        Set.of(FIRST),
                        100,
                        OptionalInt.empty(),
                        UUID.randomUUID(),
                        "Desk");
        try (SacnDriver driver =
                new SacnDriver(setup.port(), setup, universe -> at -> DmxPacket.BLACK, told::add)) {
            assertEquals(500_000_000, driver.doWork(0));
            assertEquals(1_000_000_000, driver.doWork(500_000_000));
            assertEquals(1, told.size());
            assertFalse(told.get(0).up());
            assertTrue(told.get(0).says().contains("(127.0.0.1)"), told.get(0).says());
        }
    }
}
