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

/** What datagrams say, as tshark's dissector of E1.31 reads them. */
final class SacnCapture {
    /** In the order of the columns that {@link #parse} takes. */
    private static final List<String> FIELDS =
            List.of(
                    "acn.pdu.length",
                    "acn.cid",
                    "acn.dmx.source_name",
                    "acn.dmx.priority",
                    "acn.dmx.reserved",
                    "acn.dmx.seq_number",
                    "acn.dmx.options",
                    "acn.dmx.option_p",
                    "acn.dmx.option_s",
                    "acn.dmx.universe",
                    "acn.dmx.first_property_address",
                    "acn.dmx.increment",
                    "acn.dmx.count",
                    "acn.dmx.start_code2",
                    "acn.dmx.data",
                    "_ws.malformed");

    /**
     * One data packet. The names are those of the dissector, which follows the edition of 2009:
     * what it calls reserved has become the synchronisation address.
     *
     * @param lengths of the three layers, outermost first
     * @param levels of the slots, slot 1 first
     */
    record Data(
            List<Integer> lengths,
            String cid,
            String sourceName,
            int priority,
            int reserved,
            int sequence,
            int options,
            boolean preview,
            boolean terminated,
            int universe,
            int firstPropertyAddress,
            int increment,
            int count,
            int startCode,
            List<Integer> levels) {}

    private SacnCapture() {}

    /**
     * Runs text2pcap and tshark.
     *
     * @param datagrams in order; those that the dissector does not know are passed over
     * @param folder for the capture
     * @throws AssertionError if a program is missing or cannot read them
     */
    static List<Data> read(List<byte[]> datagrams, Path folder) {
        Path hex = folder.resolve("datagrams.txt");
        Path pcap = folder.resolve("datagrams.pcap");
        try {
            Files.writeString(hex, dump(datagrams), StandardCharsets.US_ASCII);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        Tool.output(
                List.of(
                        "text2pcap",
                        "-q",
                        "-4",
                        "192.0.2.10,239.255.0.1",
                        "-u",
                        "5568,5568",
                        hex.toString(),
                        pcap.toString()));
        List<String> command =
                new ArrayList<>(
                        List.of(
                                "tshark",
                                "-n",
                                "-r",
                                pcap.toString(),
                                "--enable-heuristic",
                                "acn",
                                "-o",
                                "acn.dmx_enable:TRUE",
                                "-o",
                                "acn.dmx_display_view:decimal",
                                "-o",
                                "acn.dmx_display_zeros:TRUE",
                                "-Y",
                                "acn.dmx.universe",
                                "-E",
                                "aggregator=;",
                                "-T",
                                "fields"));
        FIELDS.forEach(field -> command.addAll(List.of("-e", field)));
        return parse(Tool.output(command));
    }

    private static String dump(List<byte[]> datagrams) {
        StringBuilder text = new StringBuilder();
        for (byte[] datagram : datagrams) {
            for (int at = 0; at < datagram.length; at += 16) {
                byte[] row = Arrays.copyOfRange(datagram, at, Math.min(at + 16, datagram.length));
                text.append("%06x  ".formatted(at))
                        .append(HexFormat.ofDelimiter(" ").formatHex(row))
                        .append('\n');
            }
            text.append('\n');
        }
        return text.toString();
    }

    private static List<Data> parse(String lines) {
        return lines.lines().filter(line -> !line.isBlank()).map(SacnCapture::data).toList();
    }

    private static Data data(String line) {
        String[] columns = line.split("\t", -1);
        if (columns.length != FIELDS.size() || !columns[15].isEmpty()) {
            throw new AssertionError("not a whole data packet: " + line);
        }
        return new Data(
                Arrays.stream(columns[0].split(";")).map(Integer::valueOf).toList(),
                columns[1],
                columns[2],
                Integer.decode(columns[3]),
                Integer.decode(columns[4]),
                Integer.decode(columns[5]),
                Integer.decode(columns[6]),
                Integer.decode(columns[7]) != 0,
                Integer.decode(columns[8]) != 0,
                Integer.decode(columns[9]),
                Integer.decode(columns[10]),
                Integer.decode(columns[11]),
                Integer.decode(columns[12]),
                Integer.decode(columns[13]),
                levels(columns[14]));
    }

    /** Rows such as {@code 001-020: 255 128 ... | 0 ...}, after one that counts the columns. */
    private static List<Integer> levels(String rows) {
        return Arrays.stream(rows.split(";"))
                .filter(row -> row.contains(":"))
                .map(row -> row.substring(row.indexOf(':') + 1).replace('|', ' ').strip())
                .flatMap(row -> Arrays.stream(row.split(" +")))
                // leading zeros are not octal
                .map(Integer::valueOf)
                .toList();
    }
}
