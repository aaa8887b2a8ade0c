package lookstep.protocols.gdtf;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;

/** GDTF files of lights that do not exist, packed by the JDK. */
final class TestFiles {
    private TestFiles() {}

    /** An archive of text files. */
    static byte[] zip(Map<String, String> files) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (ZipOutputStream zip = new ZipOutputStream(out)) {
            for (Map.Entry<String, String> file : files.entrySet()) {
                zip.putNextEntry(new ZipEntry(file.getKey()));
                zip.write(file.getValue().getBytes(StandardCharsets.UTF_8));
                zip.closeEntry();
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out.toByteArray();
    }

    /** A GDTF file with this description. */
    static byte[] gdtf(String description) {
        return zip(Map.of("description.xml", description));
    }

    /** A description with these children of its fixture type. */
    static String type(String children) {
        return """
               <?xml version="1.0" encoding="UTF-8"?>
               <GDTF DataVersion="1.2">
               <FixtureType Name="Plain panel" Manufacturer="Nobody">
               <AttributeDefinitions/>
               %s
               </FixtureType>
               </GDTF>
               """
                .formatted(children);
    }

    /** A description with one mode of these channels on one geometry, 'Body'. */
    static String channels(String channels) {
        return type(
                """
                <Geometries><Geometry Name="Body"><Beam Name="Lamp"/></Geometry></Geometries>
                <DMXModes><DMXMode Name="Only" Geometry="Body"><DMXChannels>
                %s
                </DMXChannels></DMXMode></DMXModes>
                """
                        .formatted(channels));
    }

    /** Reads a description that must be readable. */
    static GdtfReading.Good good(String description) {
        return good(gdtf(description));
    }

    /** Reads a file that must be readable. */
    static GdtfReading.Good good(byte[] file) {
        GdtfReading reading = GdtfReader.read(file);
        if (reading instanceof GdtfReading.Good good) {
            return good;
        }
        throw new AssertionError(((GdtfReading.Bad) reading).text());
    }

    /** Reads a file that must not be readable. */
    static GdtfReading.Bad bad(byte[] file) {
        GdtfReading reading = GdtfReader.read(file);
        if (reading instanceof GdtfReading.Bad bad && !bad.what().contains("stumbles")) {
            return bad;
        }
        throw new AssertionError(reading.toString());
    }
}
