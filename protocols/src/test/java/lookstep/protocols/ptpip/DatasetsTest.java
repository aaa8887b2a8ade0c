package lookstep.protocols.ptpip;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import lookstep.protocols.Annotated;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class DatasetsTest {
    /** How a dataset is read. */
    private interface Reading {
        Object read(byte[] octets) throws BadBytesException;
    }

    @SuppressWarnings("ArrayRecordComponent") // never compared
    private record Kind(Object says, byte[] octets, Reading reading) {}

    private static final List<Kind> KINDS =
            List.of(
                    new Kind(Golden.OBJECT_SAYS, Golden.OBJECT, ObjectInfo::read),
                    new Kind(Golden.STORAGE_SAYS, Golden.STORAGE, StorageInfo::read),
                    new Kind(Golden.DEVICE_SAYS, Golden.DEVICE, DeviceInfo::read),
                    new Kind(Golden.F_NUMBER_SAYS, Golden.F_NUMBER, DevicePropDesc::read),
                    new Kind(Golden.TIME_SAYS, Golden.TIME, DevicePropDesc::read),
                    new Kind(
                            new Numbers(List.of(0x0001_0001, 0x9100_0001)),
                            Annotated.bytes(
                                    """
                                    02 00 00 00  # two
                                    01 00 01 00
                                    01 00 00 91
                                    """),
                            Numbers::read));

    @Test
    void octetsAreThoseOfTheStandardBothWays() throws Exception {
        for (Kind kind : KINDS) {
            assertEquals(kind.says, kind.reading.read(kind.octets));
        }
        assertArrayEquals(Golden.OBJECT, Golden.OBJECT_SAYS.encode());
        assertArrayEquals(Golden.STORAGE, Golden.STORAGE_SAYS.encode());
        assertArrayEquals(Golden.DEVICE, Golden.DEVICE_SAYS.encode());
        assertArrayEquals(Golden.F_NUMBER, Golden.F_NUMBER_SAYS.encode());
        assertArrayEquals(Golden.TIME, Golden.TIME_SAYS.encode());
        assertArrayEquals(
                KINDS.get(5).octets, new Numbers(List.of(0x0001_0001, 0x9100_0001)).encode());
    }

    /** 146 octets, 52 of them before the first string. */
    @Test
    void objectInfoHasTheLengthOfTheStandard() {
        assertEquals(146, Golden.OBJECT.length);
    }

    @Test
    void aDatasetCutAnywhereIsAFault() {
        for (Kind kind : KINDS) {
            for (int end = 0; end < kind.octets.length; end++) {
                byte[] cut = Arrays.copyOf(kind.octets, end);
                assertThrows(
                        BadBytesException.class,
                        () -> kind.reading.read(cut),
                        kind.says + " cut at " + end);
            }
        }
    }

    @Test
    void damagedDatasetsAreReadOrAreTheOwnFault() {
        Random random = new Random(20260302);
        int read = 0;
        int faults = 0;
        for (int round = 0; round < 3_000; round++) {
            for (Kind kind : KINDS) {
                try {
                    kind.reading.read(PacketReaderTest.damaged(kind.octets, random));
                    read++;
                } catch (BadBytesException e) {
                    faults++;
                }
            }
        }
        assertTrue(read > 1_000 && faults > 1_000, read + " read, " + faults + " faults");
    }

    /** A claim of 4 thousand million handles with none behind it takes no memory. */
    @Test
    void aListThatClaimsTooManyIsAFault() {
        assertEquals(
                "list of numbers: a list of 4294967295 elements, but only 0 octets follow",
                assertThrows(
                                BadBytesException.class,
                                () -> Numbers.read(Annotated.bytes("ff ff ff ff")))
                        .getMessage());
    }

    @Test
    void stringsKeepWhateverTheCameraSays() throws Exception {
        byte[] hostile = Golden.OBJECT.clone();
        hostile[53] = 0;
        hostile[55] = '/';
        hostile[57] = 0x2E;
        hostile[58] = (byte) 0xD8;
        assertEquals("\0/\uD82E_0001.JPG", ObjectInfo.read(hostile).fileName());
    }

    @Test
    void aStringIsCutAtWhatItsCountCanSay() {
        byte[] octets = new FieldWriter().string("x".repeat(300)).written();
        assertEquals(255, octets[0] & 0xFF);
        assertEquals(1 + 2 * 255, octets.length);
    }

    @Test
    void signsOfValuesAreThoseOfTheirTypes() throws Exception {
        byte[] ones = Annotated.bytes("ff ff ff ff ff ff ff ff");
        assertEquals(new PropertyValue.Whole(-1), DataType.INT8.read(ones));
        assertEquals(new PropertyValue.Whole(255), DataType.UINT8.read(ones));
        assertEquals(new PropertyValue.Whole(-1), DataType.INT16.read(ones));
        assertEquals(new PropertyValue.Whole(65_535), DataType.UINT16.read(ones));
        assertEquals(new PropertyValue.Whole(-1), DataType.INT32.read(ones));
        assertEquals(new PropertyValue.Whole(4_294_967_295L), DataType.UINT32.read(ones));
        assertArrayEquals(
                Annotated.bytes("50 00 00 00"),
                DataType.UINT32.encode(new PropertyValue.Whole(80)));
        assertEquals(
                new PropertyValue.Text("a"), DataType.STRING.read(Annotated.bytes("02 6100 0000")));
        assertThrows(
                IllegalArgumentException.class,
                () -> DataType.UINT16.encode(new PropertyValue.Text("a")));
    }

    @Test
    void whatATypeHolds() {
        assertTrue(DataType.UINT16.holds(65_535));
        assertFalse(DataType.UINT16.holds(65_536));
        assertFalse(DataType.UINT16.holds(-1));
        assertTrue(DataType.INT8.holds(-128));
        assertFalse(DataType.INT8.holds(128));
        assertFalse(DataType.STRING.holds(1));
    }

    @Test
    void aTypeThatIsNotReadIsAFaultWithWords() {
        byte[] list = Golden.F_NUMBER.clone();
        list[3] = 0x40;
        assertEquals(
                "values of type 0x4004 are not read",
                assertThrows(BadBytesException.class, () -> DevicePropDesc.read(list))
                        .getMessage());
    }

    @Test
    void whatADeviceOffers() {
        assertTrue(Golden.DEVICE_SAYS.offers(Operation.GET_PARTIAL_OBJECT));
        assertFalse(Golden.DEVICE_SAYS.offers(Operation.INITIATE_CAPTURE));
        assertTrue(Golden.DEVICE_SAYS.tells(EventCode.OBJECT_ADDED));
        assertFalse(Golden.DEVICE_SAYS.tells(EventCode.CAPTURE_COMPLETE));
        assertTrue(Golden.DEVICE_SAYS.has(DeviceProperty.F_NUMBER));
        assertFalse(Golden.DEVICE_SAYS.has(DeviceProperty.EXPOSURE_TIME));
    }

    /** ISO 15740, DateTime string. */
    @Test
    void datesAndTimes() {
        LocalDateTime time = LocalDateTime.of(2025, 1, 2, 3, 4, 5);
        assertEquals(
                Optional.of(new DateTime(time, Optional.empty())),
                DateTime.parse("20250102T030405"));
        assertEquals(
                Optional.of(new DateTime(time.withNano(700_000_000), Optional.of(ZoneOffset.UTC))),
                DateTime.parse("20250102T030405.7Z"));
        assertEquals(
                Optional.of(new DateTime(time, Optional.of(ZoneOffset.ofHoursMinutes(-3, -30)))),
                DateTime.parse("20250102T030405-0330"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"20250102T030405", "20250102T030405.7Z", "20250102T030405-0330"})
    void timesAreWrittenAsTheyWereRead(String text) {
        assertEquals(text, DateTime.parse(text).orElseThrow().text());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"", "20250102", "20251302T030405", "20250102T256061", "2025-01-02T03:04:05"})
    void whatIsNoTime(String text) {
        assertEquals(Optional.empty(), DateTime.parse(text));
    }

    @ParameterizedTest
    @CsvSource({"0x2019, device busy", "0x200F, access denied", "0xA001, response 0xA001"})
    void responsesInWords(String code, String words) {
        assertEquals(words, ResponseCode.words(Integer.decode(code)));
    }

    @ParameterizedTest
    @CsvSource({
        "0x3801, true",
        "0x3000, true",
        "0x3811, true",
        "0xB101, true",
        "0x3001, false",
        "0x300B, false",
        "0x3004, false"
    })
    void whatMayBeAPicture(String format, boolean maybe) {
        assertEquals(maybe, ObjectFormat.maybePicture(Integer.decode(format)));
    }
}
