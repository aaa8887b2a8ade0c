package lookstep.protocols.image;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;

import java.io.IOException;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import lookstep.protocols.Annotated;
import lookstep.protocols.image.Wholeness.Foreign;
import lookstep.protocols.image.Wholeness.Partial;
import lookstep.protocols.image.Wholeness.Whole;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** After TIFF 6.0; the JDK's TIFF writer, and our own for RAW, stand on the other side. */
class TiffStructureTest {
    @TempDir Path dir;

    /** By tile: 2 x 2 tiles of one octet each, the last in the file's last octet. */
    static byte[] tiled() {
        return Annotated.bytes(
                """
                4949 2A00 08000000            # least significant first, 42, directory at 8
                0200                          # two fields
                4401 0300 04000000 26000000   # TileOffsets: four SHORTs at 38
                4501 0100 04000000 01010101   # TileByteCounts: four BYTEs of 1
                00000000
                2E00 2F00 3000 3100           # 38: tiles at 46, 47, 48, 49
                AABBCCDD
                """);
    }

    static Stream<Arguments> files() throws IOException {
        byte[] preview = Pictures.encoded(64, 48, false);
        return Stream.of(
                Arguments.of(
                        "like a DNG",
                        DngWriter.write(ExifData.UNKNOWN, preview, 40, 30, new byte[1200])),
                Arguments.of("tiles", tiled()));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("files")
    void isWholeWithItsLastOctetAndNotBefore(String name, byte[] tiff) throws IOException {
        for (int cut = 0; cut < tiff.length; cut++) {
            assertInstanceOf(
                    Partial.class, TiffStructure.wholeness(Arrays.copyOf(tiff, cut)), "at " + cut);
        }
        assertEquals(new Whole(tiff.length), TiffStructure.wholeness(tiff));
        assertEquals(
                new Whole(tiff.length),
                TiffStructure.wholeness(Arrays.copyOf(tiff, tiff.length + 9)));
        Path path = Files.write(dir.resolve("a.dng"), tiff);
        try (SeekableByteChannel channel = Files.newByteChannel(path)) {
            assertEquals(new Whole(tiff.length), TiffStructure.wholeness(channel));
        }
    }

    /** Its directory stands before or after the strips, as the JDK likes. */
    @Test
    void anotherWritersFileIsWholeOnlyWithAllItsStrips() throws IOException {
        byte[] tiff = Pictures.tiff(50, 40);
        Whole whole = assertInstanceOf(Whole.class, TiffStructure.wholeness(tiff));
        assertEquals(50, ImageIO.read(new java.io.ByteArrayInputStream(tiff)).getWidth());
        for (int cut = 0; cut < whole.length(); cut++) {
            assertInstanceOf(
                    Partial.class, TiffStructure.wholeness(Arrays.copyOf(tiff, cut)), "at " + cut);
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "00",
                "FFD8FFE0",
                "4949 2B00 10000000 0000",
                "4D4D 2A00 00000008 0000",
                "4949 2A00 00000000 0000",
                "0000 0000 0000 0000 0000 0000",
                "4949 2A00 08000000 0000 00000000"
            })
    void whatIsNoTiffIsForeign(String hex) {
        assertInstanceOf(Foreign.class, TiffStructure.wholeness(Annotated.bytes(hex)));
    }
}
