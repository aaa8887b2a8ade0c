package lookstep.server.output;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.net.InetSocketAddress;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import lookstep.protocols.dmx.DmxPacket;
import lookstep.protocols.wire.DatagramPort;
import lookstep.protocols.wire.Datagrams;
import lookstep.protocols.wire.LineLostException;
import lookstep.protocols.wire.MemoryDatagrams;
import org.junit.jupiter.api.Test;

/**
 * When what goes where: ANSI E1.31-2018, clauses 4.3, 6.2.6, 6.6, 9.1.1 and 11. Datagrams are read
 * here by the offsets of Tables 4-1 to 4-3, not by the product's own codec.
 */
class SacnDriverTest {
    private static final long MS = 1_000_000;
    private static final long BEAT = 30 * MS;
    private static final UUID CID = UUID.fromString("c5a1e57e-0b5e-4c0d-9d1f-1a2b3c4d5e6f");
    private static final InetSocketAddress NODE = new InetSocketAddress("192.0.2.5", 5568);
    private static final InetSocketAddress OTHER = new InetSocketAddress("192.0.2.6", 6000);
    private static final String DISCOVERY = "239.255.250.214:5568";

    /** One datagram on paper. */
    private record Gone(long at, String to, String hex) {
        int length() {
            return hex.length() / 2;
        }

        int one(int offset) {
            return HexFormat.fromHexDigits(hex, 2 * offset, 2 * offset + 2);
        }

        boolean data() {
            return one(21) == 4;
        }

        boolean sync() {
            return one(21) == 8 && one(43) == 1;
        }

        boolean discovery() {
            return one(21) == 8 && one(43) == 2;
        }

        int two(int offset) {
            return one(offset) << 8 | one(offset + 1);
        }

        int universe() {
            return two(113);
        }

        int sequence() {
            return one(data() ? 111 : 44);
        }

        int options() {
            return one(112);
        }

        int level() {
            return one(126);
        }
    }

    private final List<Gone> gone = new ArrayList<>();
    private final List<LineState> told = new ArrayList<>();
    private final Map<Integer, Integer> levels = new TreeMap<>();
    private final Map<Integer, Integer> asked = new TreeMap<>();
    private final MemoryDatagrams network =
            new MemoryDatagrams(
                    "paper",
                    (octets, to) ->
                            gone.add(
                                    new Gone(
                                            this.now,
                                            to.getAddress().getHostAddress() + ":" + to.getPort(),
                                            HexFormat.of().formatHex(octets))));
    private final List<Long> opened = new ArrayList<>();
    private final DatagramPort port =
            new DatagramPort() {
                @Override
                public String name() {
                    return network.name();
                }

                @Override
                public Datagrams open() throws LineLostException {
                    opened.add(now);
                    return network.open();
                }
            };
    private long now;
    private long due;
    private SacnDriver driver;

    private static SacnSetup setup(
            boolean multicast, List<InetSocketAddress> unicast, OptionalInt sync, Integer... of) {
        return new SacnSetup("paper", multicast, unicast, Set.of(of), 120, sync, CID, "Desk");
    }

    private static SacnSetup multicast(Integer... universes) {
        return setup(true, List.of(), OptionalInt.empty(), universes);
    }

    private void drive(SacnSetup setup) {
        driver = new SacnDriver(port, setup, this::source, told::add);
    }

    private PacketSource source(int universe) {
        return at -> {
            asked.merge(universe, 1, Integer::sum);
            return DmxPacket.BLACK.withSlot(1, levels.getOrDefault(universe, 0));
        };
    }

    /** Steps when the driver wants to be stepped, and looks a nanosecond before as well. */
    private void runUntil(long end) {
        while (due - end <= 0) {
            int before = gone.size();
            now = due - 1;
            assertEquals(due, driver.doWork(now));
            assertEquals(before, gone.size(), "sent before it was due");
            now = due;
            due = driver.doWork(now);
        }
        now = end;
    }

    private List<Gone> data(int universe) {
        return gone.stream().filter(g -> g.data() && g.universe() == universe).toList();
    }

    private List<Long> times(int universe) {
        return data(universe).stream().map(g -> g.at() / MS).toList();
    }

    @Test
    void everyUniverseGoesToItsGroup() {
        drive(multicast(63_999, 1, 256));
        levels.put(256, 77);
        runUntil(0);
        assertEquals(
                List.of("239.255.0.1:5568", "239.255.1.0:5568", "239.255.249.255:5568", DISCOVERY),
                gone.stream().map(Gone::to).toList());
        assertEquals(List.of(1, 256, 63_999), universes(gone.subList(0, 3)));
        Gone middle = gone.get(1);
        assertEquals(638, middle.length());
        assertEquals(77, middle.level());
        assertEquals(120, middle.one(108));
        assertEquals(0, middle.two(109));
        assertEquals(0, middle.options());
        assertEquals(CID.toString().replace("-", ""), middle.hex().substring(2 * 22, 2 * 38));
        assertEquals(
                List.of(
                        new LineState(
                                true,
                                "paper, sACN universes 1, 256, 63999, a packet every 30 ms while"
                                        + " anything changes")),
                told);
    }

    private static List<Integer> universes(List<Gone> some) {
        return some.stream().map(Gone::universe).toList();
    }

    /** Clause 6.6.2: three packets, then one every 800 to 1000 ms, the sequence advancing. */
    @Test
    void whatDoesNotChangeIsSaidThreeTimesAndThenKeptAlive() {
        drive(multicast(1));
        runUntil(60_000 * MS);
        List<Long> times = times(1);
        assertEquals(List.of(0L, 30L, 60L, 930L, 1800L), times.subList(0, 5));
        for (int i = 3; i < times.size(); i++) {
            long gap = times.get(i) - times.get(i - 1);
            assertTrue(gap >= 800 && gap <= 1000, gap + " ms");
        }
        for (int i = 0; i < times.size(); i++) {
            assertEquals(i & 0xFF, data(1).get(i).sequence());
        }
        assertEquals(2001, asked.get(1), "asked once a beat, also when nothing is sent");
    }

    @Test
    void whatChangesGoesOutOnEveryBeatAndSequencesWrap() {
        drive(multicast(1, 2));
        for (int beat = 0; beat < 600; beat++) {
            levels.put(1, beat % 256);
            runUntil(beat * BEAT);
        }
        List<Gone> first = data(1);
        assertEquals(600, first.size());
        for (int beat = 0; beat < 600; beat++) {
            assertEquals(beat * BEAT, first.get(beat).at());
            assertEquals(beat % 256, first.get(beat).level());
            assertEquals(beat & 0xFF, first.get(beat).sequence());
        }
        List<Gone> second = data(2);
        assertTrue(second.size() < 30, "the other universe does not change");
        assertEquals(second.size() - 1, second.get(second.size() - 1).sequence());
        assertEquals(Map.of(1, 600, 2, 600), asked);
    }

    @Test
    void aChangeIsOnTheNextBeatAndSaidThreeTimes() {
        drive(multicast(1));
        runUntil(500 * MS);
        int before = gone.size();
        levels.put(1, 200);
        runUntil(700 * MS);
        List<Gone> after = gone.subList(before, gone.size());
        assertEquals(List.of(510L, 540L, 570L), after.stream().map(g -> g.at() / MS).toList());
        after.forEach(g -> assertEquals(200, g.level()));
        runUntil(570 * MS + 870 * MS - 1);
        assertEquals(before + 3, gone.size());
        runUntil(570 * MS + 870 * MS);
        assertEquals(before + 4, gone.size());
    }

    /** Clause 6.6.1 with E1.11: 92 us of break, 12 us of mark and 513 slots of 44 us. */
    @Test
    void aLateBeatIsNeverMadeUpFasterThanALineCouldCarry() {
        drive(multicast(1));
        runUntil(0);
        now = 59 * MS; // the thread was held up
        assertEquals(59 * MS + 22_676_000, driver.doWork(now));
        now = 59 * MS + 22_676_000 - 1;
        driver.doWork(now);
        assertEquals(2, data(1).size());
        now++;
        // and from there on the beat is as before: what was missed is let go
        assertEquals(now + BEAT, driver.doWork(now));
        assertEquals(3, data(1).size());
    }

    /** Clause 4.3 and appendix A: every 10 s. */
    @Test
    void theUniversesAreListedEveryTenSeconds() {
        drive(setup(true, List.of(), OptionalInt.of(7), 9, 2));
        runUntil(25_000 * MS);
        List<Gone> lists = gone.stream().filter(Gone::discovery).toList();
        assertEquals(List.of(0L, 10_020L, 20_040L), lists.stream().map(g -> g.at() / MS).toList());
        for (Gone list : lists) {
            assertEquals(DISCOVERY, list.to());
            assertEquals(126, list.length());
            assertEquals(
                    "700e" // flags 7, length 14
                            + "00000001" // universe list
                            + "0000" // page 0 of last page 0
                            + "000200070009", // 2, the synchronisation's 7, 9
                    list.hex().substring(2 * 112));
        }
    }

    /** Clauses 6.3.3.1 and 11: after the data of a beat, to the group of its address alone. */
    @Test
    void synchronisationFollowsTheUniversesOfABeat() {
        drive(setup(true, List.of(NODE), OptionalInt.of(7962), 1, 2));
        runUntil(0);
        assertEquals(
                List.of(
                        "data 239.255.0.1:5568",
                        "data 192.0.2.5:5568",
                        "data 239.255.0.2:5568",
                        "data 192.0.2.5:5568",
                        "sync 239.255.31.26:5568",
                        "sync 192.0.2.5:5568",
                        "list " + DISCOVERY),
                kinds(gone));
        assertEquals(7962, gone.get(0).two(109));
        assertEquals(7962, gone.get(2).two(109));
        assertEquals(7962, gone.get(4).two(45));
        runUntil(60 * MS);
        levels.put(2, 5);
        int before = gone.size();
        runUntil(90 * MS);
        List<Gone> beat = gone.subList(before, gone.size());
        assertEquals(
                List.of(
                        "data 239.255.0.2:5568",
                        "data 192.0.2.5:5568",
                        "sync 239.255.31.26:5568",
                        "sync 192.0.2.5:5568"),
                kinds(beat));
        assertEquals(3, beat.get(0).sequence());
        assertEquals(3, beat.get(2).sequence(), "a series of its own");
        runUntil(150 * MS);
        before = gone.size();
        runUntil(900 * MS);
        assertEquals(before, gone.size(), "a beat without data needs no synchronisation");
    }

    private static List<String> kinds(List<Gone> some) {
        return some.stream()
                .map(g -> (g.data() ? "data " : g.sync() ? "sync " : "list ") + g.to())
                .toList();
    }

    @Test
    void theSamePacketGoesToEveryDestination() {
        drive(setup(false, List.of(NODE, OTHER), OptionalInt.empty(), 3));
        runUntil(0);
        assertEquals(
                List.of("data 192.0.2.5:5568", "data 192.0.2.6:6000", "list " + DISCOVERY),
                kinds(gone));
        assertEquals(gone.get(0).hex(), gone.get(1).hex());
    }

    @Test
    void aMachineThatRefusesIsToldOnceAndStopsNoOther() {
        network.refuse(NODE);
        drive(setup(false, List.of(NODE, OTHER), OptionalInt.empty(), 3));
        runUntil(20_000 * MS);
        assertEquals(1, told.size());
        assertTrue(told.get(0).up());
        assertEquals(
                "paper, sACN universe 3, a packet every 30 ms while anything changes;"
                        + " 192.0.2.5:5568: nobody listens there. Check the address, and that the"
                        + " node is set to listen.",
                told.get(0).says());
        assertEquals(
                List.of(0L, 30L, 60L, 930L), times(3).subList(0, 4), "the other is served as ever");

        network.accept(NODE);
        runUntil(23_000 * MS);
        assertEquals(2, told.size());
        assertFalse(told.get(1).says().contains("nobody"), told.get(1).says());
    }

    @Test
    void theSameTroubleOfManyUniversesIsToldOnce() {
        network.refuse(new InetSocketAddress("239.255.0.1", 5568));
        network.refuse(new InetSocketAddress("239.255.0.2", 5568));
        drive(multicast(1, 2));
        for (int beat = 0; beat < 100; beat++) {
            levels.put(1, beat);
            runUntil(beat * BEAT);
        }
        assertEquals(1, told.size(), told.toString());
    }

    @Test
    void whereAllRefuseNothingIsUp() {
        network.refuse(NODE);
        drive(setup(false, List.of(NODE), OptionalInt.empty(), 3));
        runUntil(5_000 * MS);
        assertEquals(List.of(false), told.stream().map(LineState::up).toList());
        network.accept(NODE);
        runUntil(10_000 * MS);
        assertEquals(List.of(false, true), told.stream().map(LineState::up).toList());
    }

    @Test
    void aNetworkThatGoesIsToldOnceTriedAgainAndThenAllIsSaidAnew() {
        drive(multicast(1, 2));
        levels.put(1, 10);
        runUntil(300 * MS);
        int before = gone.size();
        int askedBefore = asked.get(1);
        network.unplug();
        runUntil(5_400 * MS);
        // nothing was due, so the half-second look at the network found it
        assertEquals(
                List.of(0L, 1010L, 1510L, 2010L, 2510L, 3010L, 3510L, 4010L, 4510L, 5010L),
                opened.stream().map(at -> at / MS).toList());
        assertEquals(List.of(true, false), told.stream().map(LineState::up).toList());
        assertEquals(
                "paper: no network interface of this name or address is here. Plug it in.",
                told.get(1).says());
        assertEquals(before, gone.size());
        // on the beats from 330 to 480 ms
        assertEquals(6, asked.get(1) - askedBefore, "not asked while nothing can be sent");

        network.plug();
        runUntil(5_600 * MS);
        assertEquals(List.of(true, false, true), told.stream().map(LineState::up).toList());
        assertEquals(List.of(5510L, 5540L, 5570L), times(1).subList(3, 6));
        assertEquals(List.of(0, 1, 2, 3, 4, 5), sequences(1));
        assertEquals(List.of(5510L, 5540L, 5570L), times(2).subList(3, 6));
        assertEquals(2, gone.stream().filter(Gone::discovery).count());
    }

    private List<Integer> sequences(int universe) {
        return data(universe).stream().map(Gone::sequence).toList();
    }

    @Test
    void whileTheNetworkTakesNothingPacketsAreLetGoAndCountedAndSaidAgain() {
        drive(multicast(1));
        runUntil(0);
        network.setFull(true);
        runUntil(300 * MS);
        assertEquals(1, data(1).size());
        assertEquals(10, driver.dropped());
        assertEquals(2, told.size());
        assertTrue(told.get(1).up());
        assertTrue(
                told.get(1)
                        .says()
                        .endsWith(
                                "; multicast: packets are let go, for the network does not take"
                                        + " them. Look at its cable and switch."),
                told.get(1).says());
        network.setFull(false);
        runUntil(1_200 * MS);
        assertEquals(List.of(0L, 330L, 360L), times(1).subList(0, 3));
        assertEquals(List.of(0, 11, 12), sequences(1).subList(0, 3));
        runUntil(5_000 * MS);
        assertEquals(3, told.size());
        assertEquals(told.get(0), told.get(2));
    }

    @Test
    void whatTakesNothingForLongIsNotUp() {
        drive(multicast(1));
        runUntil(0);
        network.setFull(true);
        runUntil(2_490 * MS);
        assertTrue(told.get(told.size() - 1).up());
        runUntil(2_520 * MS);
        assertFalse(told.get(told.size() - 1).up());
    }

    /** Clause 6.2.6: three packets with Stream_Terminated. */
    @Test
    void theEndIsSaidOnThreeBeatsWithTheSameLevels() {
        drive(setup(true, List.of(), OptionalInt.of(7), 1, 2));
        levels.put(1, 66);
        runUntil(500 * MS);
        int before = gone.size();
        driver.terminate();
        assertFalse(driver.ended());
        levels.put(1, 99);
        runUntil(2_000 * MS);
        List<Gone> ending = gone.subList(before, gone.size());
        assertEquals(
                List.of(510L, 510L, 540L, 540L, 570L, 570L),
                ending.stream().map(g -> g.at() / MS).toList());
        assertEquals(List.of(1, 2, 1, 2, 1, 2), universes(ending));
        assertEquals(List.of(3, 3, 4, 4, 5, 5), ending.stream().map(Gone::sequence).toList());
        ending.forEach(g -> assertEquals(0x40, g.options()));
        assertEquals(List.of(66, 0, 66, 0, 66, 0), ending.stream().map(Gone::level).toList());
        assertTrue(driver.ended());
        driver.close();
        assertEquals(before + 6, gone.size());
    }

    @Test
    void closingSaysAtOnceWhatIsLeftToSayOfTheEnd() {
        drive(multicast(1));
        runUntil(100 * MS);
        driver.terminate();
        runUntil(120 * MS);
        assertEquals(4, data(1).size());
        driver.close();
        assertEquals(List.of(0, 1, 2, 3, 4, 5), sequences(1));
        assertEquals(
                List.of(0, 0, 0, 0x40, 0x40, 0x40), data(1).stream().map(Gone::options).toList());
        driver.close();
        driver.doWork(Long.MAX_VALUE / 4);
        assertEquals(6, data(1).size());
    }

    @Test
    void closingWhatNeverBeganOrIsGoneSaysNothing() {
        drive(multicast(1));
        driver.close();
        assertEquals(List.of(), gone);
        drive(multicast(1));
        runUntil(100 * MS);
        int before = gone.size();
        network.unplug();
        driver.close();
        assertEquals(before, gone.size());
        assertTrue(driver.ended());
    }

    @Test
    void aSourceThatFailsIsToldAndTheLightComesBack() {
        boolean[] fails = {false};
        driver =
                new SacnDriver(
                        port,
                        multicast(1),
                        universe ->
                                at -> {
                                    if (fails[0]) {
                                        throw new IllegalStateException("no look");
                                    }
                                    return DmxPacket.BLACK;
                                },
                        told::add);
        runUntil(0);
        fails[0] = true;
        now = 30 * MS;
        assertThrows(IllegalStateException.class, () -> driver.doWork(now));
        assertTrue(told.get(1).says().contains("no look"), told.toString());
        fails[0] = false;
        due = driver.doWork(now);
        assertEquals(530 * MS, due);
        runUntil(530 * MS);
        assertEquals(List.of(true, false, true), told.stream().map(LineState::up).toList());
        assertEquals(2, data(1).size());
    }

    @Test
    void beatsAreKeptAndAnAbsenceIsNone() {
        drive(multicast(1));
        runUntil(1_000 * MS);
        network.unplug();
        runUntil(4_000 * MS);
        network.plug();
        runUntil(5_000 * MS);
        long[] periods = driver.periods().sorted();
        assertEquals(BEAT, periods[0]);
        assertEquals(BEAT, periods[periods.length - 1]);
    }

    @Test
    void aUniverseWithoutASourceIsRefused() {
        Map<Integer, PacketSource> sources = Map.of(1, at -> DmxPacket.BLACK);
        assertEquals(
                "universe 2: has no source",
                assertThrows(
                                IllegalArgumentException.class,
                                () ->
                                        new SacnDriver(
                                                port, multicast(1, 2), sources::get, told::add))
                        .getMessage());
    }
}
