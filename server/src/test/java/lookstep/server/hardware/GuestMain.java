package lookstep.server.hardware;

import com.fazecast.jSerialComm.SerialPort;
import java.util.Arrays;
import java.util.Iterator;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import lookstep.protocols.dmx.DmxPacket;
import lookstep.protocols.dmx.DmxTiming;
import lookstep.protocols.wire.SerialLinePort;
import lookstep.server.loop.LoopThread;
import lookstep.server.output.LineDriver;
import lookstep.server.output.LineState;

/**
 * Runs inside the guest: first the product's own line driver through a pull and a return of its
 * adapter, then the mutants, each on its own adapter. Says how far it is on the console, where the
 * test listens.
 */
final class GuestMain {
    /** The level in slot 1 goes from the first to the second at this packet. */
    static final int CHANGE_AT_PACKET = 60;

    static final int LEVEL_BEFORE = 10;
    static final int LEVEL_AFTER = 200;

    /** Packets before the adapter may be pulled, and packets after it is back. */
    static final int PACKETS = 120;

    static final String STEADY = "guest: steady";
    static final String LOST = "guest: lost";
    static final String DONE = "guest: done";

    private static final long PATIENCE_SECONDS = 120;

    private final AtomicInteger asked = new AtomicInteger();
    private final BlockingQueue<LineState> states = new LinkedBlockingQueue<>();

    private GuestMain() {}

    /**
     * Runs all of it.
     *
     * @param devices that of the product, then one for each mutant
     */
    public static void main(String[] devices) throws InterruptedException {
        new GuestMain().product(devices[0]);
        Iterator<String> others = Arrays.asList(devices).listIterator(1);
        for (Mutant mutant : Mutant.values()) {
            mutant.run(others.next());
        }
        System.out.println(DONE);
    }

    private void product(String device) throws InterruptedException {
        LineDriver driver =
                new LineDriver(
                        new SerialLinePort(device), DmxTiming.STEADY, this::packet, states::add);
        LoopThread loop = LoopThread.startPrecise("line", driver::doWork);
        awaitLine(true);
        awaitPackets(PACKETS);
        System.out.println(STEADY);
        awaitLine(false);
        System.out.println(LOST);
        awaitLine(true);
        awaitPackets(asked.get() + PACKETS);
        loop.close();
        driver.close();
    }

    /** Slot 1 is the level, slots 2 and 3 number the packet, the others follow from their place. */
    private DmxPacket packet(long nowNanos) {
        int number = asked.getAndIncrement();
        byte[] slots = new byte[512];
        for (int slot = 4; slot <= 512; slot++) {
            slots[slot - 1] = (byte) (slot % 251);
        }
        slots[0] = (byte) (number < CHANGE_AT_PACKET ? LEVEL_BEFORE : LEVEL_AFTER);
        slots[1] = (byte) (number >> 8);
        slots[2] = (byte) number;
        return DmxPacket.ofSlots(slots);
    }

    private void awaitLine(boolean up) throws InterruptedException {
        LineState state;
        do {
            state = states.poll(PATIENCE_SECONDS, TimeUnit.SECONDS);
            System.out.println("guest: line " + state);
        } while (state != null && state.up() != up);
        if (state == null) {
            tellThreads();
            throw new IllegalStateException("the line never came " + (up ? "up" : "down"));
        }
    }

    private static void tellThreads() {
        Thread.getAllStackTraces()
                .forEach(
                        (thread, stack) -> {
                            System.out.println("guest: " + thread + " " + thread.getState());
                            for (StackTraceElement call : stack) {
                                System.out.println("guest:     " + call);
                            }
                        });
    }

    private void awaitPackets(int number) throws InterruptedException {
        while (asked.get() < number) {
            Thread.sleep(20);
        }
    }

    /**
     * Drivers that are wrong on purpose, on the same adapter and library: the check must see it.
     */
    enum Mutant {
        /** The nearest common rate, and no break. */
        SLOW_WITHOUT_BREAK(230_400, SerialPort.TWO_STOP_BITS, 513, 25_000_000) {
            @Override
            void startPacket(SerialPort port) {}
        },
        /** One stop bit, and a new break while the slots are still leaving. */
        HASTY_ONE_STOP_BIT(250_000, SerialPort.ONE_STOP_BIT, 513, 5_000_000),
        /** A packet that lacks its last slot. */
        SLOT_SHORT(250_000, SerialPort.TWO_STOP_BITS, 512, 30_000_000);

        private static final int PACKETS = 20;

        private final int bitsPerSecond;
        private final int stopBits;
        private final int bytes;
        private final long periodNanos;

        Mutant(int bitsPerSecond, int stopBits, int bytes, long periodNanos) {
            this.bitsPerSecond = bitsPerSecond;
            this.stopBits = stopBits;
            this.bytes = bytes;
            this.periodNanos = periodNanos;
        }

        void startPacket(SerialPort port) {
            port.setBreak();
            spin(176_000);
            port.clearBreak();
            spin(20_000);
        }

        void run(String device) {
            SerialPort port = SerialPort.getCommPort(device);
            port.setComPortParameters(bitsPerSecond, 8, stopBits, SerialPort.NO_PARITY);
            port.setComPortTimeouts(
                    SerialPort.TIMEOUT_WRITE_BLOCKING | SerialPort.TIMEOUT_READ_SEMI_BLOCKING,
                    0,
                    0);
            if (!port.openPort()) {
                throw new IllegalStateException(this + ": cannot open " + device);
            }
            for (int packet = 0; packet < PACKETS; packet++) {
                startPacket(port);
                port.writeBytes(new byte[bytes], bytes);
                spin(periodNanos);
            }
            port.closePort();
            System.out.println("guest: " + this);
        }

        private static void spin(long nanos) {
            long end = System.nanoTime() + nanos;
            while (end - System.nanoTime() > 0) {
                Thread.onSpinWait();
            }
        }
    }
}
