package lookstep.protocols.gdtf;

import static lookstep.protocols.gdtf.TestFiles.good;
import static lookstep.protocols.gdtf.TestFiles.type;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** Geometry references and breaks: GDTF 1.2, tables 48, 49 and 58. */
class PlacementTest {
    private static Placement place(String geometries, String channels) {
        FixtureType type =
                good(type(
                                """
                                        <Geometries>%s</Geometries>
                                        <DMXModes><DMXMode Name="M" Geometry="Body">
                                        <DMXChannels>%s</DMXChannels></DMXMode></DMXModes>
                                        """
                                        .formatted(geometries, channels)))
                        .type();
        return type.place(type.dmxModes().get(0));
    }

    private static String channel(String geometry, String dmxBreak, String offset) {
        return """
               <DMXChannel Geometry="%s" DMXBreak="%s" Offset="%s">
               <LogicalChannel Attribute="Dimmer"/></DMXChannel>
               """
                .formatted(geometry, dmxBreak, offset);
    }

    private static List<String> where(Placement placement) {
        return placement.channels().stream()
                .map(c -> String.join("/", c.path()) + " " + c.dmxBreak() + " " + c.slots())
                .toList();
    }

    @Test
    void referencesRepeatChannelsWithAShift() {
        Placement placement =
                place(
                        """
                        <Geometry Name="Body">
                          <GeometryReference Name="Left" Geometry="Cell">
                            <Break DMXBreak="1" DMXOffset="2"/></GeometryReference>
                          <GeometryReference Name="Right" Geometry="Cell">
                            <Break DMXBreak="1" DMXOffset="4"/></GeometryReference>
                        </Geometry>
                        <Beam Name="Cell" LuminousFlux="500"/>
                        """,
                        channel("Body", "1", "1") + channel("Cell", "Overwrite", "1,2"));
        assertEquals(Optional.empty(), placement.trouble());
        assertEquals(List.of(), placement.notes());
        assertEquals(
                List.of(
                        "Body 1 [1]",
                        // the cell's slots 1 and 2, one on by DMXOffset 2, three on by 4
                        "Body/Left/Cell 1 [2, 3]",
                        "Body/Right/Cell 1 [4, 5]"),
                where(placement));
        assertEquals(
                List.of(false, true, true),
                placement.channels().stream().map(Placement.PlacedChannel::referenced).toList());
        assertEquals(2, placement.beams().size());
    }

    @Test
    void breaksOfTheirOwnAndOverwritten() {
        Placement placement =
                place(
                        """
                        <Geometry Name="Body">
                          <GeometryReference Name="R" Geometry="Cell">
                            <Break DMXBreak="2" DMXOffset="11"/>
                            <Break DMXBreak="4" DMXOffset="21"/></GeometryReference>
                          <GeometryReference Name="S" Geometry="Cell"/>
                        </Geometry>
                        <Geometry Name="Cell"/>
                        """,
                        channel("Cell", "2", "1") + channel("Cell", "4", "3"));
        assertEquals(
                List.of(
                        "Body/R/Cell 2 [11]",
                        "Body/S/Cell 2 [1]", // no Break: no shift
                        "Body/R/Cell 4 [23]",
                        "Body/S/Cell 4 [3]"),
                where(placement));
    }

    @Test
    void referencesInReferencesAddUp() {
        Placement placement =
                place(
                        """
                        <Geometry Name="Body"><GeometryReference Name="R" Geometry="Row">
                          <Break DMXOffset="101"/></GeometryReference></Geometry>
                        <Geometry Name="Row"><GeometryReference Name="C" Geometry="Cell">
                          <Break DMXOffset="11"/></GeometryReference></Geometry>
                        <Geometry Name="Cell"/>
                        """,
                        channel("Cell", "Overwrite", "1"));
        assertEquals(List.of("Body/R/Row/C/Cell 1 [111]"), where(placement)); // 1 + 100 + 10
    }

    @Test
    void overwriteWithoutABreakIsTrouble() {
        String body =
                """
                <Geometry Name="Body"><GeometryReference Name="R" Geometry="Cell"/></Geometry>
                <Geometry Name="Cell"/>
                """;
        assertTrue(
                place(body, channel("Cell", "Overwrite", "1"))
                        .trouble()
                        .orElseThrow()
                        .contains("Overwrite"));
        assertTrue(place(body, channel("Body", "Overwrite", "1")).trouble().isPresent());
    }

    @Test
    void circlesAreTrouble() {
        String itself =
                """
                <Geometry Name="Body"><GeometryReference Name="R" Geometry="Body"/></Geometry>
                """;
        assertEquals(
                Optional.of("its geometry 'Body' refers to itself"),
                place(itself, channel("Body", "1", "1")).trouble());
        String other =
                """
                <Geometry Name="Body"><GeometryReference Name="R" Geometry="A"/></Geometry>
                <Geometry Name="A"><GeometryReference Name="S" Geometry="B"/></Geometry>
                <Geometry Name="B"><GeometryReference Name="T" Geometry="A"/></Geometry>
                """;
        assertEquals(
                Optional.of("its geometry 'A' refers to itself"),
                place(other, channel("Body", "1", "1")).trouble());
    }

    /** Thirty geometries that each refer twice to the next would be a thousand million. */
    @Test
    void doublingsAreTrouble() {
        StringBuilder chain =
                new StringBuilder("<Geometry Name='Body'>" + twice(0) + "</Geometry>");
        for (int i = 0; i < 30; i++) {
            chain.append("<Geometry Name='G" + i + "'>" + twice(i + 1) + "</Geometry>");
        }
        assertEquals(
                Optional.of("its geometry references multiply without end"),
                place(chain.toString(), channel("Body", "1", "1")).trouble());
    }

    private static String twice(int next) {
        return ("<GeometryReference Name='R' Geometry='G" + next + "'/>").repeat(2);
    }

    @Test
    void whatIsNowhereIsNoted() {
        Placement placement =
                place(
                        "<Geometry Name='Body'><GeometryReference Name='R' Geometry='Gone'/>"
                                + "</Geometry>",
                        channel("Else", "1", "7"));
        assertEquals(List.of("Else 1 [7]"), where(placement));
        assertEquals(
                List.of(
                        "there is no geometry 'Gone', which 'R' refers to",
                        "channel 'Else_Dimmer' is on a geometry that the mode does not have"),
                placement.notes());
        assertEquals(
                List.of(
                        "there is no geometry 'Body', which it is for",
                        "channel 'Body_Dimmer' is on a geometry that the mode does not have"),
                place("", channel("Body", "1", "1")).notes());
    }
}
