package lookstep.server.hardware;

import java.math.BigDecimal;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import lookstep.server.hardware.UsbEvent.Sent;
import lookstep.server.hardware.UsbEvent.SetBaudRate;
import lookstep.server.hardware.UsbEvent.SetData;

/** What an adapter was asked to do, as tshark reads it out of a capture file. */
final class UsbCapture {
    private static final String SET_BAUD_RATE = "3";
    private static final String SET_DATA = "4";

    /** In the order of the columns that {@link #parse} takes. */
    private static final List<String> FIELDS =
            List.of(
                    "frame.time_epoch",
                    "ftdi-ft.bRequest",
                    "ftdi-ft.lValue",
                    "ftdi-ft.hValue",
                    "ftdi-ft.lIndex",
                    "ftdi-ft.hValue.parity",
                    "ftdi-ft.hValue.b4",
                    "ftdi-ft.hValue.b6",
                    "ftdi-ft.if_a_tx_payload");

    private UsbCapture() {}

    /**
     * Runs tshark over a capture.
     *
     * @throws AssertionError if tshark is missing or cannot read the file
     */
    static List<UsbEvent> read(Path pcap) {
        List<String> command = new ArrayList<>(List.of("tshark", "-n", "-r", pcap.toString()));
        command.addAll(
                List.of(
                        "-Y",
                        "ftdi-ft.bRequest == %s || ftdi-ft.bRequest == %s || ftdi-ft.if_a_tx_payload"
                                .formatted(SET_BAUD_RATE, SET_DATA)));
        command.addAll(List.of("-T", "fields"));
        for (String field : FIELDS) {
            command.addAll(List.of("-e", field));
        }
        return parse(Tool.output(command));
    }

    /**
     * Reads what tshark printed.
     *
     * @param lines one request a line, the fields between tabs, empty where a request has none
     */
    static List<UsbEvent> parse(String lines) {
        return lines.lines().filter(line -> !line.isBlank()).map(UsbCapture::event).toList();
    }

    private static UsbEvent event(String line) {
        String[] columns = line.split("\t", -1);
        if (columns.length != FIELDS.size()) {
            throw new IllegalArgumentException(
                    "Not a line of %d fields: %s".formatted(FIELDS.size(), line));
        }
        long atNanos = new BigDecimal(columns[0]).movePointRight(9).longValueExact();
        String payload = columns[8];
        if (!payload.isEmpty()) {
            return new Sent(atNanos, payload.replace(":", ""));
        }
        int low = Integer.decode(columns[2]);
        return switch (columns[1]) {
            case SET_BAUD_RATE ->
                    new SetBaudRate(
                            atNanos,
                            Integer.decode(columns[4]) << 16
                                    | Integer.decode(columns[3]) << 8
                                    | low);
            case SET_DATA ->
                    new SetData(
                            atNanos,
                            low,
                            Integer.decode(columns[5]),
                            isSet(columns[6]),
                            isSet(columns[7]));
            default -> throw new IllegalArgumentException("Neither a setting nor bytes: " + line);
        };
    }

    private static boolean isSet(String flag) {
        return Integer.decode(flag) != 0;
    }
}
