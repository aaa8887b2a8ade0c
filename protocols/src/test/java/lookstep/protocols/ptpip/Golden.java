package lookstep.protocols.ptpip;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import lookstep.protocols.Annotated;

/**
 * Packets and datasets octet by octet, and what each says. Packets: laid out by hand after CIPA
 * DC-005, 2.3, field by field as the open dissector {@code packet-ptpip} of Wireshark cites it;
 * tshark 4.0.17 recognised each of them as the packet that it is, with the same fields, except for
 * the reason of Init Fail, the content of Cancel, and Data, which it was not given. Datasets: laid
 * out by hand after ISO 15740, in the order in which the open-source Android initiator reads them;
 * DevicePropDesc from memory.
 */
final class Golden {
    private Golden() {}

    static final UUID GUID = UUID.fromString("00010203-0405-0607-0809-0a0b0c0d0e0f");

    /** In the order of their types. */
    static final Map<Packet, byte[]> PACKETS = new LinkedHashMap<>();

    static {
        put(
                new InitCommandRequest(GUID, "host", 0x0001_0000),
                """
                26 00 00 00              # length 38
                01 00 00 00              # type 1
                00 01 02 03 04 05 06 07
                08 09 0a 0b 0c 0d 0e 0f  # GUID
                68 00 6f 00 73 00 74 00  # h o s t, 16 bits each, no count
                00 00                    # the name's end
                00 00 01 00              # version 1.0
                """);
        put(
                new InitCommandAck(7, GUID, "camera", 0x0001_0000),
                """
                2e 00 00 00              # length 46
                02 00 00 00              # type 2
                07 00 00 00              # connection 7
                00 01 02 03 04 05 06 07
                08 09 0a 0b 0c 0d 0e 0f  # GUID
                63 00 61 00 6d 00        # c a m
                65 00 72 00 61 00        # e r a
                00 00                    # the name's end
                00 00 01 00              # version 1.0
                """);
        put(
                new InitEventRequest(7),
                """
                0c 00 00 00  # length 12
                03 00 00 00  # type 3
                07 00 00 00  # connection 7
                """);
        put(
                new InitEventAck(),
                """
                08 00 00 00  # length 8
                04 00 00 00  # type 4
                """);
        put(
                new InitFail(2),
                """
                0c 00 00 00  # length 12
                05 00 00 00  # type 5
                02 00 00 00  # reason: busy
                """);
        put(
                new OperationRequest(1, 0x1002, 0, List.of(1)),
                """
                16 00 00 00  # length 22
                06 00 00 00  # type 6
                01 00 00 00  # no data, or data in
                02 10        # OpenSession
                00 00 00 00  # transaction 0
                01 00 00 00  # session 1
                """);
        put(
                new OperationRequest(1, 0x101B, 3, List.of(0x21, 0, 0x0001_0000)),
                """
                1e 00 00 00  # length 30
                06 00 00 00  # type 6
                01 00 00 00  # no data, or data in
                1b 10        # GetPartialObject
                03 00 00 00  # transaction 3
                21 00 00 00  # handle 33
                00 00 00 00  # offset 0
                00 00 01 00  # at most 65536 octets
                """);
        put(
                new OperationResponse(0x2001, 0, List.of()),
                """
                0e 00 00 00  # length 14
                07 00 00 00  # type 7
                01 20        # OK
                00 00 00 00  # transaction 0
                """);
        put(
                new EventPacket(0x4002, -1, List.of(0x21)),
                """
                12 00 00 00  # length 18
                08 00 00 00  # type 8
                02 40        # ObjectAdded
                ff ff ff ff  # no transaction
                21 00 00 00  # handle 33
                """);
        put(
                new StartData(1, 8),
                """
                14 00 00 00              # length 20
                09 00 00 00              # type 9
                01 00 00 00              # transaction 1
                08 00 00 00 00 00 00 00  # 8 octets follow in all
                """);
        put(
                new Data(1, new byte[] {(byte) 0xFF, (byte) 0xD8, 0}),
                """
                0f 00 00 00  # length 15
                0a 00 00 00  # type 10
                01 00 00 00  # transaction 1
                ff d8 00     # data
                """);
        put(
                new Cancel(3),
                """
                0c 00 00 00  # length 12
                0b 00 00 00  # type 11
                03 00 00 00  # transaction 3
                """);
        put(
                new EndData(1, new byte[] {1, 0, 0, 0, 1, 0, 1, 0}),
                """
                14 00 00 00  # length 20
                0c 00 00 00  # type 12
                01 00 00 00  # transaction 1
                01 00 00 00  # one storage
                01 00 01 00  # 0x00010001
                """);
        put(
                new ProbeRequest(),
                """
                08 00 00 00  # length 8
                0d 00 00 00  # type 13
                """);
        put(
                new ProbeResponse(),
                """
                08 00 00 00  # length 8
                0e 00 00 00  # type 14
                """);
    }

    private static void put(Packet says, String octets) {
        PACKETS.put(says, Annotated.bytes(octets));
    }

    static final ObjectInfo OBJECT_SAYS =
            new ObjectInfo(
                    0x0001_0001,
                    0x3801,
                    0,
                    4_194_304,
                    0x3808,
                    10_240,
                    160,
                    120,
                    6000,
                    4000,
                    24,
                    0,
                    0,
                    0,
                    1,
                    "IMG_0001.JPG",
                    "20250102T030405",
                    "20250102T030405",
                    "");

    static final byte[] OBJECT =
            Annotated.bytes(
                    """
                    01 00 01 00  # storage 0x00010001
                    01 38        # EXIF/JPEG
                    00 00        # not protected
                    00 00 40 00  # 4194304 octets
                    08 38        # thumb: JFIF
                    00 28 00 00  # of 10240 octets
                    a0 00 00 00  # 160 wide
                    78 00 00 00  # 120 high
                    70 17 00 00  # 6000 wide
                    a0 0f 00 00  # 4000 high
                    18 00 00 00  # 24 bits
                    00 00 00 00  # parent: root
                    00 00        # no association
                    00 00 00 00  # nothing of it
                    01 00 00 00  # sequence 1
                    0d           # 13 units with the end
                    49 00 4d 00 47 00 5f 00 30 00 30 00 30 00 31 00  # I M G _ 0 0 0 1
                    2e 00 4a 00 50 00 47 00 00 00                    # . J P G
                    10           # 16 units
                    32 00 30 00 32 00 35 00 30 00 31 00 30 00 32 00  # 2 0 2 5 0 1 0 2
                    54 00 30 00 33 00 30 00 34 00 30 00 35 00 00 00  # T 0 3 0 4 0 5
                    10           # 16 units
                    32 00 30 00 32 00 35 00 30 00 31 00 30 00 32 00
                    54 00 30 00 33 00 30 00 34 00 30 00 35 00 00 00
                    00           # no keywords
                    """);

    static final StorageInfo STORAGE_SAYS =
            new StorageInfo(3, 2, 0, 0x0000_0010_0000_0000L, 0x0000_0001_0000_0000L, 300, "SD", "");

    static final byte[] STORAGE =
            Annotated.bytes(
                    """
                    03 00                    # storage type 3
                    02 00                    # filesystem type 2
                    00 00                    # to read and write
                    00 00 00 00 10 00 00 00  # 64 GiB
                    00 00 00 00 01 00 00 00  # 4 GiB free
                    2c 01 00 00              # 300 pictures
                    03 53 00 44 00 00 00     # S D
                    00                       # no label
                    """);

    static final DeviceInfo DEVICE_SAYS =
            new DeviceInfo(
                    100,
                    0,
                    0,
                    "",
                    0,
                    List.of(0x1001, 0x1002, 0x101B),
                    List.of(0x4002),
                    List.of(0x5007),
                    List.of(),
                    List.of(0x3801),
                    "ab",
                    "c",
                    "1",
                    "");

    static final byte[] DEVICE =
            Annotated.bytes(
                    """
                    64 00        # standard version 1.00
                    00 00 00 00  # no vendor extension
                    00 00        # of no version
                    00           # and no words
                    00 00        # functional mode 0
                    03 00 00 00  # three operations
                    01 10 02 10 1b 10
                    01 00 00 00  # one event
                    02 40
                    01 00 00 00  # one property
                    07 50
                    00 00 00 00  # no capture formats
                    01 00 00 00  # one image format
                    01 38
                    03 61 00 62 00 00 00  # manufacturer: a b
                    02 63 00 00 00        # model: c
                    02 31 00 00 00        # version: 1
                    00                    # no serial number
                    """);

    static final DevicePropDesc F_NUMBER_SAYS =
            new DevicePropDesc(
                    0x5007,
                    DataType.UINT16,
                    true,
                    new PropertyValue.Whole(560),
                    new PropertyValue.Whole(800),
                    new DevicePropDesc.Form.OneOf(
                            List.of(
                                    new PropertyValue.Whole(560),
                                    new PropertyValue.Whole(800),
                                    new PropertyValue.Whole(1100))));

    static final byte[] F_NUMBER =
            Annotated.bytes(
                    """
                    07 50  # f-number
                    04 00  # UINT16
                    01     # get and set
                    30 02  # at first f/5.6
                    20 03  # now f/8
                    02     # an enumeration
                    03 00  # of three
                    30 02 20 03 4c 04  # f/5.6, f/8, f/11
                    """);

    static final DevicePropDesc TIME_SAYS =
            new DevicePropDesc(
                    0x500D,
                    DataType.UINT32,
                    false,
                    new PropertyValue.Whole(80),
                    new PropertyValue.Whole(4_000_000_000L),
                    new DevicePropDesc.Form.Range(
                            new PropertyValue.Whole(1),
                            new PropertyValue.Whole(300_000),
                            new PropertyValue.Whole(1)));

    static final byte[] TIME =
            Annotated.bytes(
                    """
                    0d 50        # exposure time
                    06 00        # UINT32
                    00           # get only
                    50 00 00 00  # at first 1/125 s
                    00 28 6b ee  # now 4000000000: no sign
                    01           # a range
                    01 00 00 00  # from 1/10000 s
                    e0 93 04 00  # to 30 s
                    01 00 00 00  # in steps of 1/10000 s
                    """);
}
