package lookstep.protocols.sacn;

import java.util.List;
import java.util.UUID;
import lookstep.protocols.Annotated;

/**
 * One packet of each kind, laid out by hand after ANSI E1.31-2018, Tables 4-1 to 4-3 (fields and
 * clauses via the requirement list of the open-source library 'sacn' for Rust), and what it says.
 * The layout of the data packet is also judged by tshark, in the server's SacnOnTheWireTest; tshark
 * 4.0 does not know the other two.
 */
final class Golden {
    private Golden() {}

    static final UUID CID = UUID.fromString("c5a1e57e-0b5e-4c0d-9d1f-1a2b3c4d5e6f");

    /** "Bühne 2": 8 octets of UTF-8. */
    private static final String NAME =
            """
            42 C3 BC 68 6E 65 20 32                          # B, u with diaeresis, h n e, blank, 2
            00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00  # ended and filled with NUL to 64
            00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00
            00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00
            00 00 00 00 00 00 00 00
            """;

    private static final String HEAD =
            """
            00 10                                # preamble size
            00 00                                # postamble size
            41 53 43 2D 45 31 2E 31 37 00 00 00  # ASC-E1.17
            """;

    private static final String CID_OCTETS =
            """
            C5 A1 E5 7E 0B 5E 4C 0D 9D 1F 1A 2B 3C 4D 5E 6F  # CID
            """;

    static final byte[] DATA =
            Annotated.bytes(
                    HEAD
                            + """
                            70 72        # flags 7, length 114: from here to the end
                            00 00 00 04  # root vector: data
                            """
                            + CID_OCTETS
                            + """
                            70 5C        # flags 7, length 92
                            00 00 00 02  # framing vector: data
                            """
                            + NAME
                            + """
                            96           # priority 150
                            1F 1A        # synchronisation address 7962
                            FE           # sequence 254
                            60           # options: Stream_Terminated, Force_Synchronization
                            F9 FF        # universe 63999
                            70 0F        # flags 7, length 15
                            02           # DMP vector: set property
                            A1           # address and data type
                            00 00        # first property address
                            00 01        # address increment
                            00 05        # property value count: START code and 4 slots
                            00           # START code NULL
                            FF 80 01 00  # slots 1 to 4
                            """);

    static final SacnData DATA_SAYS =
            new SacnData(
                    CID,
                    "Bühne 2",
                    150,
                    7962,
                    254,
                    new SacnOptions(false, true, true),
                    63_999,
                    new SacnSlots(0, new byte[] {(byte) 255, (byte) 128, 1, 0}));

    static final byte[] SYNC =
            Annotated.bytes(
                    HEAD
                            + """
                            70 21        # flags 7, length 33
                            00 00 00 08  # root vector: extended
                            """
                            + CID_OCTETS
                            + """
                            70 0B        # flags 7, length 11
                            00 00 00 01  # framing vector: synchronisation
                            01           # sequence 1
                            1F 1A        # synchronisation address 7962
                            00 00        # reserved
                            """);

    static final SacnSync SYNC_SAYS = new SacnSync(CID, 1, 7962);

    static final byte[] DISCOVERY =
            Annotated.bytes(
                    HEAD
                            + """
                            70 6E        # flags 7, length 110
                            00 00 00 08  # root vector: extended
                            """
                            + CID_OCTETS
                            + """
                            70 58        # flags 7, length 88
                            00 00 00 02  # framing vector: discovery
                            """
                            + NAME
                            + """
                            00 00 00 00  # reserved
                            70 0E        # flags 7, length 14
                            00 00 00 01  # vector: universe list
                            01           # page 1, the second
                            02           # last page 2
                            00 01        # universe 1
                            00 02        # universe 2
                            F9 FF        # universe 63999
                            """);

    static final SacnDiscovery DISCOVERY_SAYS =
            new SacnDiscovery(CID, "Bühne 2", 1, 2, List.of(1, 2, 63_999));
}
