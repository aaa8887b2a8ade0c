package lookstep.server.hardware;

import java.util.ArrayList;
import java.util.List;
import lookstep.server.hardware.UsbEvent.Sent;
import lookstep.server.hardware.UsbEvent.SetBaudRate;
import lookstep.server.hardware.UsbEvent.SetData;

/**
 * Judges a capture by the rules of the line, and cuts it into packets. The figures are those of
 * ANSI E1.11-2008 (R2018) for a transmitter, written here a second time so that the product's own
 * are not their own judge.
 *
 * <p>All times are lower bounds: the emulated adapter passes a packet on at once, so only the
 * distance between requests can show that the line had the time it needs. A capture may end
 * anywhere; what follows its last break may be cut short.
 */
final class LineCheck {
    /** 3 MHz / 12 = 250 kbit/s. */
    static final int DIVISOR_250_KBIT = 0x000c;

    static final long LEAST_BREAK_NANOS = 92_000;
    static final long LEAST_MARK_NANOS = 12_000;
    static final int PACKET_BYTES = 513;

    /** 513 characters of 11 bits of 4 us. */
    static final long SLOTS_NANOS = 22_572_000;

    /** A break, a mark after break, and the slots. */
    static final long LEAST_PERIOD_NANOS = 22_676_000;

    /** What a line can do wrong. */
    enum Rule {
        BIT_RATE,
        CHARACTER,
        NO_BREAK,
        SHORT_BREAK,
        SHORT_MARK,
        SLOT_COUNT,
        START_CODE,
        SLOTS_CUT,
        SHORT_PERIOD
    }

    /**
     * One thing that went wrong.
     *
     * @param packet counted from 0; -1 before the first break
     */
    record Fault(Rule rule, int packet, String seen) {}

    private final List<WirePacket> packets = new ArrayList<>();
    private final List<Fault> faults = new ArrayList<>();
    private final StringBuilder hex = new StringBuilder();
    private int divisor;
    private boolean inBreak;
    private long breakStartNanos;
    private long breakEndNanos;
    private long slotsStartNanos;
    private int packet = -1;

    private LineCheck() {}

    static LineCheck of(List<UsbEvent> events) {
        LineCheck check = new LineCheck();
        events.forEach(check::take);
        check.finish();
        return check;
    }

    /** Whole packets, in order. */
    List<WirePacket> packets() {
        return List.copyOf(packets);
    }

    List<Fault> faults() {
        return List.copyOf(faults);
    }

    private void take(UsbEvent event) {
        if (event instanceof SetBaudRate rate) {
            divisor = rate.divisor();
        } else if (event instanceof SetData data) {
            takeFormat(data);
        } else if (event instanceof Sent sent) {
            takeBytes(sent);
        }
    }

    private void takeFormat(SetData data) {
        if (data.breakOn() && !inBreak) {
            startPacket(data);
        } else if (!data.breakOn() && inBreak) {
            inBreak = false;
            breakEndNanos = data.atNanos();
            long lastedNanos = breakEndNanos - breakStartNanos;
            expect(lastedNanos >= LEAST_BREAK_NANOS, Rule.SHORT_BREAK, lastedNanos + " ns");
        }
    }

    private void startPacket(SetData data) {
        if (packet >= 0) {
            closePacket();
            long slotsNanos = data.atNanos() - slotsStartNanos;
            expect(slotsNanos >= SLOTS_NANOS, Rule.SLOTS_CUT, slotsNanos + " ns");
            long periodNanos = data.atNanos() - breakStartNanos;
            expect(periodNanos >= LEAST_PERIOD_NANOS, Rule.SHORT_PERIOD, periodNanos + " ns");
        }
        packet++;
        inBreak = true;
        breakStartNanos = data.atNanos();
        expect(divisor == DIVISOR_250_KBIT, Rule.BIT_RATE, "divisor 0x%04x".formatted(divisor));
        expect(
                data.dataBits() == 8 && data.parity() == 0 && data.twoStopBits(),
                Rule.CHARACTER,
                data.toString());
    }

    private void takeBytes(Sent sent) {
        if (packet < 0 || inBreak) {
            expect(false, Rule.NO_BREAK, sent.hex().length() / 2 + " bytes outside a packet");
            expect(divisor == DIVISOR_250_KBIT, Rule.BIT_RATE, "divisor 0x%04x".formatted(divisor));
            return;
        }
        if (hex.isEmpty()) {
            slotsStartNanos = sent.atNanos();
            long lastedNanos = sent.atNanos() - breakEndNanos;
            expect(lastedNanos >= LEAST_MARK_NANOS, Rule.SHORT_MARK, lastedNanos + " ns");
            expect(sent.hex().startsWith("00"), Rule.START_CODE, "0x" + sent.hex().substring(0, 2));
        }
        hex.append(sent.hex());
    }

    private void closePacket() {
        int bytes = hex.length() / 2;
        expect(bytes == PACKET_BYTES, Rule.SLOT_COUNT, bytes + " bytes between breaks");
        keepWhole();
        hex.setLength(0);
    }

    private void keepWhole() {
        if (hex.length() == 2 * PACKET_BYTES) {
            packets.add(WirePacket.ofHex(breakStartNanos, hex.toString()));
        }
    }

    private void finish() {
        expect(packet >= 0, Rule.NO_BREAK, "no break in the capture");
        expect(
                hex.length() <= 2 * PACKET_BYTES,
                Rule.SLOT_COUNT,
                hex.length() / 2 + " bytes after the last break");
        keepWhole();
    }

    private void expect(boolean kept, Rule rule, String seen) {
        if (!kept) {
            faults.add(new Fault(rule, packet, seen));
        }
    }
}
