package lookstep.protocols.gdtf;

import static lookstep.protocols.gdtf.TestFiles.channels;
import static lookstep.protocols.gdtf.TestFiles.good;
import static lookstep.protocols.gdtf.TestFiles.type;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import lookstep.protocols.gdtf.ChannelFunction.ChannelSet;
import lookstep.protocols.gdtf.ChannelFunction.ModeMaster;
import lookstep.protocols.gdtf.DmxMode.Relation;
import lookstep.protocols.gdtf.EmitterDescription.Measurement;
import lookstep.protocols.gdtf.EmitterDescription.MeasurementPoint;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Names of elements, attributes and defaults are those of GDTF 1.2, tables 2 to 63. */
class GdtfReaderTest {
    private static DmxMode mode(String description) {
        return good(description).type().dmxModes().get(0);
    }

    private static DmxChannel channel(String xml) {
        return mode(channels(xml)).channels().get(0);
    }

    private static List<String> notes(GdtfReading.Good reading) {
        return reading.notes().stream().map(GdtfNote::text).toList();
    }

    @Test
    void aWholeFile() {
        GdtfReading.Good reading =
                good(
                        """
                        <?xml version="1.0" encoding="UTF-8"?>
                        <GDTF DataVersion="1.2">
                          <FixtureType Name="Long panel" ShortName="LP" LongName="A long panel"
                              Manufacturer="Nobody" Description="for tests"
                              FixtureTypeID="11111111-2222-3333-4444-555555555555">
                            <AttributeDefinitions><Attributes>
                              <Attribute Name="CTC" Pretty="Kelvin" Feature="Color.Color"
                                  PhysicalUnit="Temperature"/>
                            </Attributes></AttributeDefinitions>
                            <Wheels><Wheel Name="W"><Slot Name="Open"/></Wheel></Wheels>
                            <PhysicalDescriptions>
                              <Emitters>
                                <Emitter Name="Deep" Color="0.69,0.31,20.5" DiodePart="D 1">
                                  <Measurement Physical="100" LuminousIntensity="1500">
                                    <MeasurementPoint WaveLength="640" Energy="0.5"/>
                                    <MeasurementPoint WaveLength="630" Energy="1"/>
                                  </Measurement>
                                </Emitter>
                                <Emitter Name="Unseen" DominantWaveLength="385"/>
                              </Emitters>
                              <DMXProfiles><DMXProfile Name="Soft">
                                <Point DMXPercentage="50" CFC0="0.25" CFC1="0.015"/>
                                <Point DMXPercentage="0" CFC2="0.0001"/>
                              </DMXProfile></DMXProfiles>
                            </PhysicalDescriptions>
                            <Geometries>
                              <Geometry Name="Body">
                                <Beam Name="Lamp" LampType="LED" LuminousFlux="5000"
                                    BeamAngle="90" BeamType="Wash"/>
                              </Geometry>
                            </Geometries>
                            <DMXModes>
                              <DMXMode Name="Big" Description="all" Geometry="Body">
                                <DMXChannels>
                                  <DMXChannel Offset="1,2" Highlight="255/1" Geometry="Lamp"
                                      InitialFunction="Lamp_Dimmer.Dimmer.Dim">
                                    <LogicalChannel Attribute="Dimmer" Master="Grand" Snap="Yes">
                                      <ChannelFunction Name="Dim" Attribute="Dimmer"
                                          Default="32768/2" DMXProfile="Soft">
                                        <ChannelSet Name="Closed" DMXFrom="0/1"
                                            PhysicalFrom="0" PhysicalTo="0"/>
                                        <ChannelSet Name="Rest" DMXFrom="1/2"/>
                                      </ChannelFunction>
                                    </LogicalChannel>
                                  </DMXChannel>
                                </DMXChannels>
                                <Relations>
                                  <Relation Name="R" Master="Lamp_Dimmer" Type="Override"
                                      Follower="Lamp_Dimmer.Dimmer.Dim"/>
                                </Relations>
                              </DMXMode>
                            </DMXModes>
                          </FixtureType>
                        </GDTF>
                        """);

        assertEquals(List.of(), notes(reading));
        FixtureType type = reading.type();
        assertEquals("1.2", type.dataVersion());
        assertEquals("Long panel", type.name());
        assertEquals("Nobody", type.manufacturer());
        assertEquals(
                new AttributeDefinition("CTC", "Kelvin", "Color.Color", "", "Temperature"),
                type.attribute("ctc").orElseThrow());
        assertEquals(
                new EmitterDescription(
                        "Deep",
                        Optional.of(new ColorCie(0.69, 0.31, 20.5)),
                        Optional.empty(),
                        "D 1",
                        List.of(
                                new Measurement(
                                        100,
                                        1500,
                                        "Linear",
                                        List.of(
                                                new MeasurementPoint(630, 1),
                                                new MeasurementPoint(640, 0.5))))),
                type.emitter("Deep").orElseThrow());
        assertEquals(Optional.of(385.0), type.emitter("Unseen").orElseThrow().dominantWaveLength());

        DmxProfile soft = type.dmxProfile("Soft").orElseThrow();
        assertEquals(0.0001 * 40 * 40, soft.at(40), 1e-12);
        assertEquals(0.25 + 0.015 * 50, soft.at(100), 1e-12);

        Geometry.Beam beam =
                type.geometry("Body").orElseThrow().children().get(0).beam().orElseThrow();
        assertEquals(new Given(5000, true), beam.luminousFlux());
        assertEquals(new Given(90, true), beam.beamAngle());
        // table 41's defaults, told apart
        assertEquals(new Given(1000, false), beam.powerConsumption());
        assertEquals(new Given(6000, false), beam.colorTemperature());
        assertEquals(new Given(25, false), beam.fieldAngle());
        assertEquals("LED", beam.lampType());

        DmxMode mode = type.dmxModes().get(0);
        assertEquals(
                List.of(new Relation("R", "Lamp_Dimmer", "Lamp_Dimmer.Dimmer.Dim", true)),
                mode.relations());
        DmxChannel dimmer = mode.byName().get("lamp_dimmer");
        assertEquals(List.of(1, 2), dimmer.offsets());
        assertEquals(OptionalInt.of(1), dimmer.dmxBreak());
        assertEquals(65535, dimmer.max());
        assertEquals(32768, dimmer.defaultValue());
        assertEquals(Optional.of(new DmxValue(255, 1, false)), dimmer.highlight());
        ChannelFunction dim = dimmer.function("lamp_dimmer.dimmer.dim").orElseThrow();
        assertEquals("Soft", dim.dmxProfile());
        assertEquals(
                List.of(
                        new ChannelSet("Closed", 0, 0, new Given(0, true), new Given(0, true)),
                        new ChannelSet("Rest", 1, 65535, new Given(0, false), new Given(1, false))),
                dim.sets());
    }

    @Test
    void missingAttributesTakeTheirDefaults() {
        DmxChannel channel =
                channel(
                        """
                        <DMXChannel Geometry="Lamp"><LogicalChannel Attribute="Zoom">
                        <ChannelFunction/></LogicalChannel></DMXChannel>
                        """);
        assertEquals(List.of(), channel.offsets()); // no Offset: virtual
        assertEquals(OptionalInt.of(1), channel.dmxBreak());
        assertEquals(Optional.empty(), channel.highlight());
        assertEquals(0, channel.defaultValue());
        LogicalChannel logical = channel.logicalChannels().get(0);
        assertEquals("No", logical.snap());
        assertEquals("None", logical.master());
        ChannelFunction function = logical.functions().get(0);
        assertEquals("NoFeature", function.attribute());
        assertEquals("NoFeature 1", function.name()); // attribute and number
        assertEquals(0, function.dmxFrom());
        assertEquals(0, function.physicalFrom());
        assertEquals(1, function.physicalTo());
        assertEquals(Optional.empty(), function.modeMaster());
    }

    @Test
    void functionsEndBeforeTheNext() {
        DmxChannel channel =
                channel(
                        """
                        <DMXChannel Offset="3" Geometry="Lamp">
                        <LogicalChannel Attribute="Shutter1">
                          <ChannelFunction Attribute="Shutter1" DMXFrom="0/1"/>
                          <ChannelFunction Attribute="Shutter1Strobe" DMXFrom="64/1"
                              PhysicalFrom="1" PhysicalTo="20"/>
                        </LogicalChannel>
                        <LogicalChannel Attribute="Dimmer">
                          <ChannelFunction Attribute="Dimmer" DMXFrom="128/1"/>
                        </LogicalChannel>
                        </DMXChannel>
                        """);
        List<ChannelFunction> all = channel.functions();
        assertEquals(List.of(63L, 127L, 255L), all.stream().map(ChannelFunction::dmxTo).toList());
        // physical: linear from DMXFrom to the end, 1 Hz + 19 Hz * (96 - 64) / (127 - 64)
        assertEquals(1 + 19 * 32 / 63.0, all.get(1).physical(96), 1e-12);
        assertTrue(all.get(1).has(127));
        assertEquals("Lamp_Shutter1", channel.name());
    }

    /** Under another mode master the same stretch is another function's. */
    @Test
    void functionsUnderOtherMastersDoNotEndEachOther() {
        DmxChannel channel =
                channel(
                        """
                        <DMXChannel Offset="1" Geometry="Lamp"><LogicalChannel Attribute="Dimmer">
                          <ChannelFunction Attribute="Dimmer" DMXFrom="0/1"
                              ModeMaster="Lamp_Fans" ModeFrom="0/1" ModeTo="99/1"/>
                          <ChannelFunction Attribute="Zoom" DMXFrom="0/1"
                              ModeMaster="Lamp_Fans" ModeFrom="100/1" ModeTo="255/1"/>
                          <ChannelFunction Attribute="Iris" DMXFrom="128/1"
                              ModeMaster="Lamp_Fans" ModeFrom="100/1" ModeTo="255/1"/>
                        </LogicalChannel></DMXChannel>
                        """);
        assertEquals(
                List.of(255L, 127L, 255L),
                channel.functions().stream().map(ChannelFunction::dmxTo).toList());
        assertEquals(
                Optional.of(
                        new ModeMaster(
                                "Lamp_Fans",
                                new DmxValue(100, 1, false),
                                new DmxValue(255, 1, false))),
                channel.functions().get(1).modeMaster());
    }

    /** Default is on the function since 1.2; before, it was on the channel. */
    @Test
    void defaultsOldAndNew() {
        String functions =
                """
                <LogicalChannel Attribute="Shutter1">
                <ChannelFunction Name="A" Attribute="Shutter1" Default="1/1"/>
                <ChannelFunction Name="B" Attribute="Shutter1" DMXFrom="9/1" Default="10/1"/>
                </LogicalChannel></DMXChannel>
                """;
        assertEquals(1, channel("<DMXChannel Offset='1' Geometry='L'>" + functions).defaultValue());
        assertEquals(
                200,
                channel("<DMXChannel Offset='1' Geometry='L' Default='200/1'>" + functions)
                        .defaultValue());
        assertEquals(
                10,
                channel(
                                "<DMXChannel Offset='1' Geometry='L' Default='200/1'"
                                        + " InitialFunction='L_Shutter1.Shutter1.B'>"
                                        + functions)
                        .defaultValue());
    }

    @Test
    void badPartsAreNotesWithTheirPlace() {
        GdtfReading.Good reading =
                good(
                        channels(
                                """
                                <DMXChannel Offset="1" Geometry="Lamp" Highlight="all">
                                 <LogicalChannel Attribute="Dimmer">
                                  <ChannelFunction Attribute="Dimmer" PhysicalTo="NaN"
                                      Default="300/1"/>
                                 </LogicalChannel>
                                </DMXChannel>
                                """));
        assertEquals(
                List.of(
                        "description.xml:7:1: DMXChannel Highlight 'all' is no DMX value such as"
                                + " 255/1; taken: none",
                        "description.xml:9:3: ChannelFunction PhysicalTo 'NaN' is no number that can"
                                + " be; taken: 1",
                        "description.xml:9:3: ChannelFunction Default '300/1' is no DMX value such"
                                + " as 255/1; taken: none"),
                notes(reading).stream().sorted(byPlace()).toList());
    }

    private static Comparator<String> byPlace() {
        return Comparator.comparing(n -> n.substring(0, "description.xml:7".length()));
    }

    @Test
    void numbersThatCannotBe() {
        for (String number :
                List.of(
                        "NaN",
                        "Infinity",
                        "-Infinity",
                        "1e300",
                        "1e999",
                        "0x1p3",
                        "1,5",
                        "7d",
                        "")) {
            GdtfReading.Good reading =
                    good(
                            type(
                                    "<Geometries><Beam Name='B' LuminousFlux='"
                                            + number
                                            + "'/></Geometries><DMXModes/>"));
            assertEquals(
                    new Given(10_000, false),
                    reading.type().geometries().get(0).beam().orElseThrow().luminousFlux());
            assertEquals(1, reading.notes().size(), number);
        }
    }

    @Test
    void coloursThatCannotBe() {
        for (String colour :
                List.of("0.3,0.3", "0.3,0,1", "0.9,0.3,1", "NaN,0.3,1", "0.3,0.3,-1", "-1,0.3,1")) {
            GdtfReading.Good reading =
                    good(
                            type(
                                    "<PhysicalDescriptions><Emitters><Emitter Name='E' Color='"
                                            + colour
                                            + "'/></Emitters></PhysicalDescriptions>"
                                            + "<Geometries/><DMXModes/>"));
            assertEquals(Optional.empty(), reading.type().emitters().get(0).color());
            assertEquals(1, reading.notes().size(), colour);
        }
    }

    /** E1.54's red, and one that was rounded up. */
    @Test
    void coloursOnTheEdge() {
        assertEquals(
                Optional.of(new ColorCie(0.7347, 1 - 0.7347, 5)), ColorCie.of("0.7347,0.2653,5"));
        assertEquals(
                Optional.of(new ColorCie(0.735, 1 - 0.735, 5)), ColorCie.of("0.735, 0.2655, 5"));
    }

    /** A mode whose slots are not known is lost; the file is not. */
    @Test
    void aModeWithAChannelWithoutPlaceIsLeftOut() {
        for (String offset : List.of("0", "1,,2", "1;2", "-3", "1,2,3,4,5", "1.5", "NaN")) {
            GdtfReading.Good reading =
                    good(
                            channels(
                                    "<DMXChannel Geometry='L' Offset='"
                                            + offset
                                            + "'><LogicalChannel Attribute='Dimmer'/>"
                                            + "</DMXChannel>"));
            assertEquals(List.of(), reading.type().dmxModes());
            assertTrue(
                    notes(reading).get(1).endsWith("so the mode 'Only' is left out"),
                    notes(reading).toString());
        }
    }

    /** Names from a file go to terminals and pages. */
    @Test
    void namesCannotCommandATerminal() {
        // U+009B begins a command to a terminal, U+202E turns the writing round; both may be in XML
        FixtureType type =
                good("<GDTF DataVersion='1.2'><FixtureType Name='a&#x9B;31mb&#x202E;c"
                                + "x".repeat(500)
                                + "'/></GDTF>")
                        .type();
        assertTrue(type.name().startsWith("a 31mb cxxx"), type.name());
        assertTrue(type.name().length() < 130);
        assertTrue(type.name().endsWith("..."));
    }

    @Test
    void fromDisk(@TempDir Path dir) throws Exception {
        Path file = dir.resolve("panel.gdtf");
        Files.write(file, TestFiles.gdtf(channels("")));
        assertEquals("Plain panel", ((GdtfReading.Good) GdtfReader.read(file)).type().name());
        assertEquals(
                "there is no such file; write the path of one",
                ((GdtfReading.Bad) GdtfReader.read(dir.resolve("none.gdtf"))).text());
        assertEquals(
                "this is no file; write the path of a .gdtf file itself",
                ((GdtfReading.Bad) GdtfReader.read(dir)).text());
        assertEquals(
                "this is no file; write the path of a .gdtf file itself",
                ((GdtfReading.Bad) GdtfReader.read(Path.of("/dev/zero"))).text());
    }
}
