package lookstep.protocols.wire;

import com.fazecast.jSerialComm.SerialPort;
import com.fazecast.jSerialComm.SerialPortInvalidPortException;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * A line on a serial device: a USB adapter, or a pseudo-terminal. Prefer a path under {@code
 * /dev/serial/by-id}: it names the adapter, where {@code /dev/ttyUSB0} names whichever came first.
 *
 * @param device path of the device, or of a link to it
 */
public record SerialLinePort(String device) implements LinePort {
    private static final int BITS_PER_SECOND = 250_000;
    private static final int DATA_BITS = 8;

    // errno values of Linux
    private static final int NO_PERMISSION = 13;
    private static final int BUSY = 16;
    private static final int NO_TERMINAL = 25;

    private static final String NO_SERIAL_DEVICE = "this is no serial device. Choose another line.";

    @Override
    public String name() {
        return device;
    }

    @Override
    public Line open() throws LineLostException {
        if (device.startsWith("/") && !Files.exists(Path.of(device))) {
            throw new LineLostException(
                    device + ": no adapter is there. Plug it in, or choose another line.");
        }
        SerialPort port;
        try {
            // anew each time: an old object may reopen another device that took the name
            port = SerialPort.getCommPort(device);
        } catch (SerialPortInvalidPortException e) {
            throw new LineLostException(device + ": " + NO_SERIAL_DEVICE, e);
        }
        port.setComPortParameters(
                BITS_PER_SECOND, DATA_BITS, SerialPort.TWO_STOP_BITS, SerialPort.NO_PARITY);
        port.setFlowControl(SerialPort.FLOW_CONTROL_DISABLED);
        // the pair waits in the kernel; either alone spins while the adapter does not drain
        port.setComPortTimeouts(
                SerialPort.TIMEOUT_WRITE_BLOCKING | SerialPort.TIMEOUT_READ_SEMI_BLOCKING, 0, 0);
        if (!port.openPort()) {
            throw new LineLostException(device + ": " + whyNot(port.getLastErrorCode()));
        }
        return new SerialLine(device, port);
    }

    private static String whyNot(int errno) {
        return switch (errno) {
            case NO_PERMISSION -> SerialAdapters.NO_PERMISSION;
            case NO_TERMINAL -> NO_SERIAL_DEVICE;
            case BUSY ->
                    "another program is using the adapter. End that program, or choose another"
                            + " line.";
            default ->
                    "the adapter cannot be opened (error %d). Pull it and put it back in."
                            .formatted(errno);
        };
    }
}
