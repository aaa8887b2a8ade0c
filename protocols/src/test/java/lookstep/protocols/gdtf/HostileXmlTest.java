package lookstep.protocols.gdtf;

import static lookstep.protocols.gdtf.TestFiles.bad;
import static lookstep.protocols.gdtf.TestFiles.channels;
import static lookstep.protocols.gdtf.TestFiles.gdtf;
import static lookstep.protocols.gdtf.TestFiles.good;
import static lookstep.protocols.gdtf.TestFiles.type;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.channels.ServerSocketChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class HostileXmlTest {
    private static GdtfReading.Bad refused(String what, String description) {
        // stored, for much of the same would look like a bomb to the archive
        GdtfReading.Bad bad = bad(RawZip.of(RawZip.Entry.stored("description.xml", description)));
        assertTrue(bad.what().contains(what), bad.text());
        return bad;
    }

    @Test
    void aThousandMillionLaughs() {
        StringBuilder dtd = new StringBuilder("<!DOCTYPE GDTF [<!ENTITY e0 'ha'>");
        for (int i = 1; i < 10; i++) {
            dtd.append("<!ENTITY e%d '%s'>".formatted(i, ("&e" + (i - 1) + ";").repeat(10)));
        }
        refused("document type", dtd + "]><GDTF DataVersion='&e9;'><a>&e9;</a></GDTF>");
    }

    /** Nothing is fetched: a listening socket on this machine sees nobody come. */
    @Test
    void noNetwork() throws Exception {
        try (ServerSocketChannel listening = ServerSocketChannel.open()) {
            listening.bind(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0));
            listening.configureBlocking(false);
            int port = ((InetSocketAddress) listening.getLocalAddress()).getPort();
            String url = "http://127.0.0.1:" + port + "/x.dtd";
            refused("document type", "<!DOCTYPE GDTF SYSTEM '" + url + "'><GDTF/>");
            refused("document type", "<!DOCTYPE GDTF PUBLIC 'p' '" + url + "'><GDTF/>");
            refused(
                    "document type",
                    "<!DOCTYPE GDTF [<!ENTITY % p SYSTEM '" + url + "'> %p;]><GDTF/>");
            refused(
                    "document type",
                    "<!DOCTYPE GDTF [<!ENTITY x SYSTEM '" + url + "'>]><GDTF>&x;</GDTF>");
            assertNull(listening.accept());
        }
    }

    @Test
    void noFiles(@TempDir Path dir) throws Exception {
        Path secret = Files.writeString(dir.resolve("secret"), "a word that must not be seen");
        GdtfReading.Bad bad =
                refused(
                        "document type",
                        "<!DOCTYPE GDTF [<!ENTITY x SYSTEM '"
                                + secret.toUri()
                                + "'>]><GDTF DataVersion='1.2'><FixtureType Name='n'>&x;"
                                + "</FixtureType></GDTF>");
        assertFalse(bad.text().contains("a word that"));
        refused("not well-formed".substring(4), "<GDTF>&x;</GDTF>");
    }

    @Test
    void placesAreNamed() {
        GdtfReading.Bad bad = bad(gdtf("<GDTF>\n  <FixtureType>\n  </Fixture>\n</GDTF>"));
        assertEquals(3, bad.line());
        assertTrue(
                bad.text().startsWith("description.xml:3:") && bad.text().contains("FixtureType"),
                bad.text());
    }

    @Test
    void tooDeep() {
        refused("64 elements in each other", "<GDTF>" + "<a>".repeat(70));
        // also where nothing is kept
        refused(
                "64 elements in each other",
                "<GDTF><FixtureType><Models>" + "<a>".repeat(1_000_000));
    }

    @Test
    void tooMany() {
        refused("250000 elements", "<GDTF>" + "<a/>".repeat(300_000));
        refused("250000 elements", "<GDTF><FixtureType><Models>" + "<a/>".repeat(300_000));
        StringBuilder attributes = new StringBuilder();
        for (int i = 0; i < 65; i++) {
            attributes.append(" a").append(i).append("=''");
        }
        refused("64 attributes", "<GDTF" + attributes + "/>");
        refused("65536 characters in one", "<GDTF a='" + "y".repeat(70_000) + "'/>");
        refused("1048576 characters of text", "<GDTF>" + "y".repeat(1_100_000));
        refused(
                "1048576 characters of text",
                "<GDTF><![CDATA[" + "y".repeat(1_100_000) + "]]></GDTF>");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                " ",
                "no XML",
                "<GDTF",
                "<GDTF>",
                "<GDTF/><GDTF/>",
                "<GDTF a='1' a='2'/>",
                "<GDTF>\u0001</GDTF>",
                "<GDTF>&#0;</GDTF>",
                "<?xml version='7.0'?><GDTF/>",
            })
    void whatIsNoXml(String text) {
        refused("no well-formed XML", text);
    }

    @Test
    void otherXml() {
        refused("begins with <svg>", "<svg/>");
        refused("has no FixtureType", "<GDTF DataVersion='1.2'/>");
        byte[] latin = "<GDTF a='\u00e9'/>".getBytes(StandardCharsets.ISO_8859_1);
        RawZip.Entry entry = RawZip.Entry.deflated("description.xml", latin);
        assertEquals(
                "description.xml is not UTF-8, as GDTF is, from octet 9 on",
                bad(RawZip.of(entry)).what());
        // whatever it says of itself
        assertEquals(
                1,
                good("<?xml version='1.0' encoding='UTF-16'?>" + channels("").split("\n", 2)[1])
                        .type()
                        .dmxModes()
                        .size());
    }

    @Test
    void unknownPrefixesAndElementsDoNoHarm() {
        GdtfReading.Good reading =
                good(
                        type(
                                "<Geometries/><DMXModes/><x:y z:w='1'><Deeper/></x:y>"
                                        + "<?style none?><!-- words -->"));
        assertEquals(0, reading.notes().size());
    }

    /** The description cut at each character, and with seeded flips, in a whole archive. */
    @Test
    void cutAndFlipped() {
        String whole =
                channels(
                        """
                        <DMXChannel Offset="1,2" Default="255/1" Geometry="Lamp">
                        <LogicalChannel Attribute="Dimmer"><ChannelFunction Attribute="Dimmer"
                        ModeMaster="Lamp_Dimmer" ModeFrom="0/1" ModeTo="255/1">
                        <ChannelSet Name="Off" DMXFrom="0/1"/></ChannelFunction></LogicalChannel>
                        </DMXChannel>
                        """);
        int end = whole.lastIndexOf('>');
        for (int length = 0; length < end; length++) {
            refused("well-formed", whole.substring(0, length));
        }
        byte[] octets = whole.getBytes(StandardCharsets.UTF_8);
        Random random = new Random(4);
        int good = 0;
        for (int round = 0; round < 2000; round++) {
            byte[] flipped = octets.clone();
            for (int n = random.nextInt(4); n >= 0; n--) {
                flipped[random.nextInt(octets.length)] = (byte) random.nextInt();
            }
            byte[] file = RawZip.of(RawZip.Entry.deflated("description.xml", flipped));
            GdtfReading reading = GdtfReader.read(file);
            if (reading instanceof GdtfReading.Good read) {
                good++;
                read.type().dmxModes().forEach(read.type()::place);
            } else {
                assertFalse(reading.toString().contains("stumbles"), reading.toString());
            }
        }
        assertTrue(good > 40, good + " were still readable");
    }

    @Test
    void notesDoNotGrowWithoutEnd() {
        GdtfReading.Good reading =
                good(
                        type(
                                "<Geometries>"
                                        + "<Beam Name='B' LuminousFlux='x'/>".repeat(500)
                                        + "</Geometries><DMXModes/>"));
        assertEquals(101, reading.notes().size());
        assertEquals("and 400 more like these", reading.notes().get(100).text());
    }

    @Test
    void ofVeryManyOnlySomeAreRead() {
        GdtfReading.Good reading =
                good(
                        type(
                                "<Geometries/><DMXModes>"
                                        + "<DMXMode Name='M' Geometry='B'/>".repeat(300)
                                        + "</DMXModes>"));
        assertEquals(100, reading.type().dmxModes().size());
        assertTrue(reading.notes().get(0).what().startsWith("of 300 DMXMode only 100"));
        String channel =
                "<DMXChannel Offset='1' Geometry='B'><LogicalChannel Attribute='Pan'/></DMXChannel>";
        GdtfReading.Good many = good(channels(channel.repeat(3000)));
        assertEquals(0, many.type().dmxModes().size());
        assertTrue(many.notes().get(0).what().contains("has 3000 DMX channels"));
    }

    @Test
    void aByteOrderMarkDoesNoHarm() {
        byte[] description = ("\uFEFF" + channels("")).getBytes(StandardCharsets.UTF_8);
        assertEquals((byte) 0xEF, description[0]);
        assertEquals(
                1,
                good(TestFiles.zip(Map.of("description.xml", "\uFEFF" + channels(""))))
                        .type()
                        .dmxModes()
                        .size());
        assertEquals(0, Arrays.compare(description, 0, 3, new byte[] {-17, -69, -65}, 0, 3));
    }
}
