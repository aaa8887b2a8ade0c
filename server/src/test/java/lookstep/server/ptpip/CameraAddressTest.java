package lookstep.server.ptpip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CameraAddressTest {
    /** The port is that of CIPA DC-005, 2.2.3.1. */
    @ParameterizedTest
    @CsvSource({
        "192.168.1.20, 192.168.1.20, 15740",
        "camera.local, camera.local, 15740",
        "' camera:1 ', camera, 1",
        "192.168.1.20:65535, 192.168.1.20, 65535",
        "fe80::1, fe80::1, 15740",
        "[fe80::1], fe80::1, 15740",
        "[fe80::1]:15741, fe80::1, 15741"
    })
    void addresses(String text, String host, int port) {
        assertEquals(new CameraAddress(host, port), CameraAddress.parse(text));
    }

    @ParameterizedTest
    @CsvSource({
        "'', the camera's address is missing",
        "':15740', the camera's address is missing",
        "'camera:', the port after the colon is a number",
        "'camera:x', the port after the colon is a number",
        "'camera:0', a port is 1 to 65535",
        "'camera:65536', a port is 1 to 65535",
        "'[fe80::1', an IPv6 address is written as in [fe80::1]:15740",
        "'[fe80::1]x', an IPv6 address is written as in [fe80::1]:15740",
        "'ptp://camera', 'the port after the colon is a number'",
        "'two words', 'an address is letters, digits, dots and dashes'"
    })
    void noAddresses(String text, String mend) {
        String said =
                assertThrows(IllegalArgumentException.class, () -> CameraAddress.parse(text))
                        .getMessage();
        assertEquals(
                "no camera address: '" + text + "': " + mend,
                said.substring(0, Math.min(said.length(), 23 + text.length() + mend.length())));
    }

    @Test
    void theUsualPortIsNotNamed() {
        UUID guid = new UUID(1, 2);
        assertEquals("camera 192.168.1.20", PtpIpCameraLink.parse("192.168.1.20", guid).name());
        assertEquals(
                "camera 192.168.1.20 port 7", PtpIpCameraLink.parse("192.168.1.20:7", guid).name());
    }
}
