package lookstep.protocols.image;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.color.ColorSpace;
import java.awt.color.ICC_Profile;
import java.io.ByteArrayInputStream;
import java.nio.ByteBuffer;
import java.nio.channels.SeekableByteChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** exiftool writes the words that must not go on, and says what is left. */
class BareJpegTest {
    @TempDir Path dir;

    private static int[] pixels(byte[] jpeg) throws Exception {
        return ImageIO.read(new ByteArrayInputStream(jpeg)).getRGB(0, 0, 64, 48, null, 0, 64);
    }

    /** One segment, as ICC.1 annex B.4 has it. */
    private static byte[] profileSegment(byte[] profile) {
        return ByteBuffer.allocate(18 + profile.length)
                .put((byte) 0xFF)
                .put((byte) 0xE2)
                .putShort((short) (16 + profile.length))
                .put("ICC_PROFILE\0".getBytes(StandardCharsets.US_ASCII))
                .put((byte) 1)
                .put((byte) 1)
                .put(profile)
                .array();
    }

    @Test
    void keepsThePictureTheTurnAndTheColoursAndNothingElse() throws Exception {
        byte[] plain = Pictures.encoded(64, 48, false);
        Path path = Files.write(dir.resolve("a.jpg"), plain);
        Path small = Files.write(dir.resolve("s.jpg"), Pictures.encoded(24, 16, false));
        byte[] profile = ICC_Profile.getInstance(ColorSpace.CS_LINEAR_RGB).getData();
        Path icc = Files.write(dir.resolve("p.icc"), profile);
        ExifTool.run(
                path,
                "-overwrite_original",
                "-Make=Box works",
                "-ExifIFD:SerialNumber=0042",
                "-GPSLatitude=12.5",
                "-XMP:Creator=somebody",
                "-IPTC:Keywords=secret",
                "-Comment=words",
                "-Orientation#=3",
                "-ThumbnailImage<=" + small,
                "-ICC_Profile<=" + icc);
        byte[] full = Files.readAllBytes(path);
        byte[] bare = BareJpeg.of(full, 6, List.of()).orElseThrow();
        Path out = Files.write(dir.resolve("out.jpg"), bare);
        Map<String, String> words = ExifTool.read(out, "-Exif:all", "-XMP:all", "-IPTC:all");
        assertEquals(Map.of("Orientation", "6"), words);
        words = ExifTool.read(out);
        for (String gone : List.of("secret", "somebody", "0042", "Box works", "12.5")) {
            assertFalse(words.containsValue(gone), gone);
        }
        assertFalse(words.containsKey("Comment"), words::toString);
        assertArrayEquals(profile, ExifTool.run(out, "-b", "-ICC_Profile"));
        assertArrayEquals(pixels(full), pixels(bare));
    }

    @Test
    void takesTheMainPicturesColoursWhereItHasNone() throws Exception {
        byte[] plain = Pictures.encoded(64, 48, false);
        byte[] profile = ICC_Profile.getInstance(ColorSpace.CS_LINEAR_RGB).getData();
        Path main = Files.write(dir.resolve("main.jpg"), plain);
        Path icc = Files.write(dir.resolve("p.icc"), profile);
        ExifTool.run(main, "-overwrite_original", "-ICC_Profile<=" + icc);
        List<byte[]> segments;
        try (SeekableByteChannel channel = Files.newByteChannel(main)) {
            segments = BareJpeg.profile(channel);
        }
        assertEquals(1, segments.size());
        assertArrayEquals(profileSegment(profile), segments.get(0));
        byte[] bare = BareJpeg.of(plain, 1, segments).orElseThrow();
        Path out = Files.write(dir.resolve("out.jpg"), bare);
        assertArrayEquals(profile, ExifTool.run(out, "-b", "-ICC_Profile"));
        // and its own come first
        byte[] own = Files.readAllBytes(main);
        byte[] kept = BareJpeg.of(own, 1, List.of(profileSegment(new byte[200]))).orElseThrow();
        assertArrayEquals(
                profile,
                ExifTool.run(Files.write(dir.resolve("k.jpg"), kept), "-b", "-ICC_Profile"));
    }

    @Test
    void aPictureThatIsCutIsNone() throws Exception {
        byte[] plain = Pictures.encoded(64, 48, true);
        for (int cut = 0; cut < plain.length; cut++) {
            assertTrue(BareJpeg.of(Arrays.copyOf(plain, cut), 1, List.of()).isEmpty());
        }
        byte[] more = Arrays.copyOf(plain, plain.length + 100);
        assertArrayEquals(
                BareJpeg.of(plain, 1, List.of()).orElseThrow(),
                BareJpeg.of(more, 1, List.of()).orElseThrow());
    }
}
