package lookstep.protocols.wire;

import com.fazecast.jSerialComm.SerialPort;
import com.fazecast.jSerialComm.SerialPortDataListener;
import com.fazecast.jSerialComm.SerialPortEvent;
import java.util.concurrent.atomic.AtomicBoolean;

/** An open serial device. Any sign of trouble closes it; it never opens again. */
final class SerialLine implements Line {
    private final String device;
    private final SerialPort port;

    /**
     * Set by the one who closes the port. The library joins its event thread while it holds a lock
     * that closing needs: a second close from that thread would wait for ever.
     */
    private final AtomicBoolean gone = new AtomicBoolean();

    SerialLine(String device, SerialPort port) {
        this.device = device;
        this.port = port;
        port.addDataListener(new Disconnected());
    }

    @Override
    public void startBreak() throws LineLostException {
        requireThere();
        if (!port.setBreak()) {
            throw lost("it does not take the break");
        }
    }

    @Override
    public void endBreak() throws LineLostException {
        requireThere();
        if (!port.clearBreak()) {
            throw lost("it does not end the break");
        }
    }

    @Override
    public void write(byte[] startCodeAndSlots) throws LineLostException {
        requireThere();
        int wanted = startCodeAndSlots.length;
        int taken = port.writeBytes(startCodeAndSlots, wanted);
        // isOpen() stays true after an unplug, so the count decides
        if (taken != wanted) {
            throw lost("it took %d of %d octets".formatted(Math.max(0, taken), wanted));
        }
    }

    @Override
    public void close() {
        if (gone.compareAndSet(false, true)) {
            port.closePort();
        }
    }

    private void requireThere() throws LineLostException {
        if (gone.get()) {
            throw new LineLostException(
                    device + ": the line is closed or the adapter is gone. Plug it back in.");
        }
        // a negative count means that the device does not answer
        if (port.bytesAvailable() < 0) {
            throw lost("it does not answer");
        }
    }

    private LineLostException lost(String how) {
        boolean closedMeanwhile = gone.get();
        close();
        return new LineLostException(
                closedMeanwhile
                        ? device + ": the line was closed."
                        : device + ": the adapter is gone (" + how + "). Plug it back in.");
    }

    private final class Disconnected implements SerialPortDataListener {
        @Override
        public int getListeningEvents() {
            return SerialPort.LISTENING_EVENT_PORT_DISCONNECTED;
        }

        @Override
        public void serialEvent(SerialPortEvent event) {
            // the event repeats as fast as it can until the port is closed
            if (event.getEventType() == SerialPort.LISTENING_EVENT_PORT_DISCONNECTED) {
                close();
            }
        }
    }
}
