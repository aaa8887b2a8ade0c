package lookstep.server.hardware;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;

/** What packets to a camera say, as tshark's dissector of PTP/IP reads them. */
final class PtpIpCapture {
    private static final List<String> FIELDS =
            List.of(
                    "ptpip.len",
                    "ptpip.pktType",
                    "ptpip.guid",
                    "ptpip.name",
                    "ptpip.version",
                    "ptpip.connection",
                    "ptpip.phaseinfo",
                    "ptpip.opcode",
                    "ptpip.transactionID",
                    "ptpip.datalen",
                    "ptpip.opcode.param.sessionid",
                    "_ws.malformed",
                    "_ws.col.Info");

    private PtpIpCapture() {}

    /**
     * Cuts a stream into packets by the length that each begins with, 32 bits, least significant
     * octet first.
     */
    static List<byte[]> packets(byte[] stream) {
        List<byte[]> packets = new ArrayList<>();
        int at = 0;
        while (at < stream.length) {
            int length =
                    (stream[at] & 0xFF)
                            | (stream[at + 1] & 0xFF) << 8
                            | (stream[at + 2] & 0xFF) << 16;
            packets.add(Arrays.copyOfRange(stream, at, at + length));
            at += length;
        }
        return packets;
    }

    /**
     * Runs text2pcap and tshark.
     *
     * @param packets one a segment: the dissector does not put them together
     * @param folder for the capture
     * @return one line a packet: what the fields of it that are there say, between bars
     * @throws AssertionError if a program is missing, or knows not all of them
     */
    static List<String> read(List<byte[]> packets, Path folder) {
        Path hex = folder.resolve("packets.txt");
        Path pcap = folder.resolve("packets.pcap");
        StringBuilder dump = new StringBuilder();
        for (byte[] packet : packets) {
            dump.append("000000 ")
                    .append(HexFormat.ofDelimiter(" ").formatHex(packet))
                    .append("\n\n");
        }
        try {
            Files.writeString(hex, dump, StandardCharsets.US_ASCII);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        Tool.output(
                List.of(
                        "text2pcap",
                        "-q",
                        "-4",
                        "192.0.2.10,192.0.2.20",
                        "-T",
                        "50000,15740",
                        hex.toString(),
                        pcap.toString()));
        List<String> command =
                new ArrayList<>(
                        List.of(
                                "tshark",
                                "-n",
                                "-r",
                                pcap.toString(),
                                "-Y",
                                "ptpip",
                                "-E",
                                "separator=|",
                                "-T",
                                "fields"));
        FIELDS.forEach(field -> command.addAll(List.of("-e", field)));
        List<String> lines = Tool.output(command).lines().toList();
        if (lines.size() != packets.size()) {
            throw new AssertionError(packets.size() + " packets, but read as " + lines);
        }
        return lines;
    }
}
