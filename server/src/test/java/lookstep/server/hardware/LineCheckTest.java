package lookstep.server.hardware;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.function.UnaryOperator;
import lookstep.server.hardware.LineCheck.Fault;
import lookstep.server.hardware.LineCheck.Rule;
import lookstep.server.hardware.UsbEvent.Sent;
import lookstep.server.hardware.UsbEvent.SetBaudRate;
import lookstep.server.hardware.UsbEvent.SetData;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

/**
 * The judge judged: a stretch of a real capture as tshark 4.0.17 printed it, good as it stands, and
 * then with one thing wrong at a time.
 */
@DisplayName("the check of a captured line")
class LineCheckTest {
    /** Opening with three packets: 5 settings, then per packet break, no break and 3 transfers. */
    private static final List<String> GOOD = capture("three-packets.tsv").lines().toList();

    private static final int BAUD_RATE = 4;
    private static final int BREAK_0 = 5;
    private static final int NO_BREAK_0 = 6;
    private static final int SLOTS_0 = 7;
    private static final int BREAK_1 = 10;
    private static final int SLOTS_1 = 12;
    private static final int BREAK_2 = 15;

    private static final String BREAK_ON = "0x08\t0x50\t0x00\t0x00\t0x01\t0x01";

    @Test
    void readsSettingsAndBytes() {
        List<UsbEvent> events = UsbCapture.parse(String.join("\n", GOOD));
        assertEquals(20, events.size());
        assertEquals(new SetBaudRate(1795600622815879000L, 0x000c), events.get(BAUD_RATE));
        assertEquals(new SetData(1795600622875486000L, 8, 0, true, true), events.get(BREAK_0));
        assertEquals(new SetData(1795600622876048000L, 8, 0, true, false), events.get(NO_BREAK_0));
        assertEquals(new Sent(1795600622882579000L, "0a"), events.get(SLOTS_0 + 2));
    }

    @Test
    void aLineThatIsNotOfTheCaptureIsRefused() {
        assertThrows(
                IllegalArgumentException.class, () -> UsbCapture.parse("1795600622.8\t3\t0x0c"));
    }

    @Test
    void goodLineHasNoFaults() {
        LineCheck check = check(GOOD);
        assertEquals(List.of(), check.faults());
        assertEquals(3, check.packets().size());
        WirePacket second = check.packets().get(1);
        assertEquals(1795600625151235000L, second.breakAtNanos());
        assertEquals(0, second.slot(0));
        assertEquals(10, second.slot(1));
        assertEquals(1, second.slot(3));
        assertEquals(10, second.slot(512));
    }

    @Test
    void anotherRate() {
        // 3 MHz / 13: what an adapter of this class is told for 230 400 bit/s
        expectOnly(Rule.BIT_RATE, 3, with(BAUD_RATE, line -> line.replace("0x0c", "0x0d")));
        expectOnly(
                Rule.BIT_RATE,
                3,
                with(BAUD_RATE, line -> line.replace("0x0c\t0x00", "0x0c\t0x40")));
    }

    @Test
    void anotherCharacter() {
        for (String format :
                List.of(
                        "0x07\t0x50\t0x00\t0x00\t0x01\t0x01",
                        "0x08\t0x51\t0x00\t0x01\t0x01\t0x01",
                        "0x08\t0x40\t0x00\t0x00\t0x00\t0x01")) {
            expectOnly(Rule.CHARACTER, 1, with(BREAK_1, line -> line.replace(BREAK_ON, format)));
        }
    }

    @Test
    void noBreakAtAll() {
        List<String> lines = GOOD.stream().filter(line -> !line.contains(BREAK_ON)).toList();
        // each of 9 transfers, and the capture as a whole
        expectOnly(Rule.NO_BREAK, 10, lines);
    }

    @Test
    void bytesBeforeTheBreakHasEnded() {
        List<String> lines = new ArrayList<>(GOOD);
        lines.add(SLOTS_0 + 2, lines.remove(NO_BREAK_0));
        assertTrue(rules(lines).contains(Rule.NO_BREAK), () -> rules(lines).toString());
    }

    @Test
    void breakOf91Point999() {
        expectOnly(Rule.SHORT_BREAK, 1, at(NO_BREAK_0, "1795600622.875577999"));
        assertEquals(List.of(), rules(at(NO_BREAK_0, "1795600622.875578000")));
    }

    @Test
    void markOf11Point999() {
        expectOnly(Rule.SHORT_MARK, 1, at(SLOTS_0, "1795600622.876059999"));
        assertEquals(List.of(), rules(at(SLOTS_0, "1795600622.876060000")));
    }

    @Test
    void breakWhileTheLastSlotIsLeaving() {
        // 22.572 ms after the slots of packet 1 began to leave at 625.153355
        assertEquals(List.of(), rules(at(BREAK_2, "1795600625.175927000")));
        expectOnly(Rule.SLOTS_CUT, 1, at(BREAK_2, "1795600625.175926999"));
    }

    @Test
    void breakTooSoonAfterTheBreak() {
        // the slots leave 104 us after the break began, the least there is
        List<String> soonest = new ArrayList<>(at(SLOTS_1, "1795600625.151339000"));
        soonest.set(BREAK_1 + 1, moved(GOOD.get(BREAK_1 + 1), "1795600625.151327000"));
        soonest.set(BREAK_2, moved(GOOD.get(BREAK_2), "1795600625.173911000"));
        assertEquals(List.of(), rules(soonest));
        soonest.set(BREAK_2, moved(GOOD.get(BREAK_2), "1795600625.173910999"));
        assertEquals(List.of(Rule.SLOTS_CUT, Rule.SHORT_PERIOD), rules(soonest));
    }

    @Test
    void oneSlotLessOrMore() {
        expectOnly(Rule.SLOT_COUNT, 1, without(SLOTS_0 + 2));
        expectOnly(Rule.SLOT_COUNT, 1, with(SLOTS_0 + 2, line -> line + "00"));
        assertEquals(2, check(without(SLOTS_0 + 2)).packets().size());
    }

    @Test
    void theLastPacketMayBeCutButNotTooLong() {
        assertEquals(List.of(), rules(GOOD.subList(0, GOOD.size() - 1)));
        expectOnly(Rule.SLOT_COUNT, 1, with(GOOD.size() - 1, line -> line + "00"));
    }

    @Test
    void anotherStartCode() {
        expectOnly(Rule.START_CODE, 1, with(SLOTS_1, line -> line.replace("\t000a", "\tcc0a")));
    }

    @Test
    void anEmptyCaptureIsNotGood() {
        expectOnly(Rule.NO_BREAK, 1, List.of());
    }

    private static void expectOnly(Rule rule, int times, List<String> lines) {
        assertEquals(Collections.nCopies(times, rule), rules(lines));
    }

    private static List<Rule> rules(List<String> lines) {
        return check(lines).faults().stream().map(Fault::rule).toList();
    }

    private static LineCheck check(List<String> lines) {
        return LineCheck.of(UsbCapture.parse(String.join("\n", lines)));
    }

    private static List<String> with(int index, UnaryOperator<String> change) {
        List<String> lines = new ArrayList<>(GOOD);
        String changed = change.apply(lines.get(index));
        if (changed.equals(lines.set(index, changed))) {
            throw new AssertionError("nothing changed in: " + changed);
        }
        return lines;
    }

    private static List<String> at(int index, String seconds) {
        return with(index, line -> moved(line, seconds));
    }

    private static String moved(String line, String seconds) {
        return seconds + line.substring(line.indexOf('\t'));
    }

    private static List<String> without(int index) {
        List<String> lines = new ArrayList<>(GOOD);
        lines.remove(index);
        return lines;
    }

    private static String capture(String name) {
        try (InputStream in = LineCheckTest.class.getResourceAsStream(name)) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }
}
