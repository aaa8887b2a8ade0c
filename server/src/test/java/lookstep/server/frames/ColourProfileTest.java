package lookstep.server.frames;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Color;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;
import javax.imageio.ImageIO;
import lookstep.server.Program;
import lookstep.server.frames.PreviewResult.Preview;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * A picture in a wide gamut comes out in its colours. Expected values are computed here from the
 * published chromaticities: sRGB of IEC 61966-2-1; red 0.680 0.320, green 0.265 0.690, blue 0.150
 * 0.060 and white D65 of SMPTE RP 431-2 with a pure gamma of 2.2.
 */
class ColourProfileTest {
    private static final double[][] WIDE = {{0.680, 0.320}, {0.265, 0.690}, {0.150, 0.060}};
    private static final double[][] SRGB = {{0.640, 0.330}, {0.300, 0.600}, {0.150, 0.060}};
    private static final double[] D65 = {0.3127, 0.3290};
    private static final double GAMMA = 2.2;

    /** The profile connection space's white (ICC.1, 7.2.16), and the Bradford matrix (annex E). */
    private static final double[] D50 = {0.9642, 1.0, 0.8249};

    private static final double[][] BRADFORD = {
        {0.8951, 0.2664, -0.1614}, {-0.7502, 1.7135, 0.0367}, {0.0389, -0.0685, 1.0296}
    };

    @TempDir Path folder;

    private static double[] times(double[][] m, double[] v) {
        double[] r = new double[3];
        for (int i = 0; i < 3; i++) {
            r[i] = m[i][0] * v[0] + m[i][1] * v[1] + m[i][2] * v[2];
        }
        return r;
    }

    private static double[][] times(double[][] a, double[][] b) {
        double[][] r = new double[3][3];
        for (int i = 0; i < 3; i++) {
            for (int j = 0; j < 3; j++) {
                r[i][j] = a[i][0] * b[0][j] + a[i][1] * b[1][j] + a[i][2] * b[2][j];
            }
        }
        return r;
    }

    private static double[][] inverse(double[][] m) {
        double[][] r = new double[3][3];
        double det = 0;
        for (int i = 0; i < 3; i++) {
            int j = (i + 1) % 3;
            int k = (i + 2) % 3;
            det += m[0][i] * (m[1][j] * m[2][k] - m[1][k] * m[2][j]);
        }
        for (int i = 0; i < 3; i++) {
            for (int j = 0; j < 3; j++) {
                int a = (j + 1) % 3;
                int b = (j + 2) % 3;
                int c = (i + 1) % 3;
                int d = (i + 2) % 3;
                r[i][j] = (m[a][c] * m[b][d] - m[a][d] * m[b][c]) / det;
            }
        }
        return r;
    }

    private static double[] xyz(double[] xy) {
        return new double[] {xy[0] / xy[1], 1, (1 - xy[0] - xy[1]) / xy[1]};
    }

    /** Linear RGB to XYZ: columns are the primaries, scaled so that they add up to the white. */
    private static double[][] toXyz(double[][] primaries) {
        double[][] m = new double[3][3];
        for (int c = 0; c < 3; c++) {
            double[] column = xyz(primaries[c]);
            for (int i = 0; i < 3; i++) {
                m[i][c] = column[i];
            }
        }
        double[] scale = times(inverse(m), xyz(D65));
        for (int i = 0; i < 3; i++) {
            for (int c = 0; c < 3; c++) {
                m[i][c] *= scale[c];
            }
        }
        return m;
    }

    /** As a display shows a colour of the wide gamut in sRGB: 0..255, not rounded. */
    private static double[] asSrgb(Color wide) {
        double[] linear = {
            Math.pow(wide.getRed() / 255.0, GAMMA),
            Math.pow(wide.getGreen() / 255.0, GAMMA),
            Math.pow(wide.getBlue() / 255.0, GAMMA)
        };
        double[] srgb = times(inverse(toXyz(SRGB)), times(toXyz(WIDE), linear));
        double[] codes = new double[3];
        for (int i = 0; i < 3; i++) {
            double v = Math.max(0, Math.min(1, srgb[i]));
            codes[i] = 255 * (v <= 0.0031308 ? 12.92 * v : 1.055 * Math.pow(v, 1 / 2.4) - 0.055);
        }
        return codes;
    }

    private static void text(ByteBuffer out, String text) {
        out.put(text.getBytes(StandardCharsets.US_ASCII));
    }

    private static void s15Fixed16(ByteBuffer out, double value) {
        out.putInt((int) Math.round(value * 65536));
    }

    /** A display profile of matrix and gamma, version 2, laid out after ICC.1:2001-04. */
    static byte[] profile() {
        double[][] cone = BRADFORD;
        double[] from = times(cone, xyz(D65));
        double[] to = times(cone, D50);
        double[][] scale = new double[3][3];
        for (int i = 0; i < 3; i++) {
            scale[i][i] = to[i] / from[i];
        }
        double[][] adapted = times(times(inverse(cone), times(scale, cone)), toXyz(WIDE));
        // header 128, count 4, nine tags of 12, then desc 96, cprt 16, wtpt 20, 3 x 20, curve 16
        int tags = 128 + 4 + 9 * 12;
        int size = tags + 96 + 16 + 20 + 60 + 16;
        ByteBuffer out = ByteBuffer.allocate(size);
        out.putInt(size).putInt(0).putInt(0x02100000);
        text(out, "mntrRGB XYZ ");
        out.position(36);
        text(out, "acsp");
        out.position(68);
        for (double v : D50) {
            s15Fixed16(out, v);
        }
        out.position(128);
        out.putInt(9);
        int at = tags;
        String[] names = {"desc", "cprt", "wtpt", "rXYZ", "gXYZ", "bXYZ"};
        int[] lengths = {96, 16, 20, 20, 20, 20};
        for (int i = 0; i < names.length; i++) {
            text(out, names[i]);
            out.putInt(at).putInt(lengths[i]);
            at += lengths[i];
        }
        for (String curve : new String[] {"rTRC", "gTRC", "bTRC"}) {
            text(out, curve);
            out.putInt(at).putInt(14);
        }
        int next = out.position();
        text(out, "desc");
        out.putInt(0).putInt(5);
        text(out, "wide\0");
        out.position(next + 96);
        text(out, "text");
        out.putInt(0);
        text(out, "none\0");
        out.position(next + 96 + 16);
        text(out, "XYZ ");
        out.putInt(0);
        for (double v : D50) {
            s15Fixed16(out, v);
        }
        for (int c = 0; c < 3; c++) {
            text(out, "XYZ ");
            out.putInt(0);
            for (int i = 0; i < 3; i++) {
                s15Fixed16(out, adapted[i][c]);
            }
        }
        text(out, "curv");
        out.putInt(0).putInt(1).putShort((short) Math.round(GAMMA * 256));
        return out.array();
    }

    /** A JPEG of one colour whose values are meant in that profile (ICC.1 annex B.4). */
    private static byte[] tagged(Color colour, int width, int height, byte[] profile) {
        BufferedImage picture = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        var pen = picture.createGraphics();
        pen.setColor(colour);
        pen.fillRect(0, 0, width, height);
        pen.dispose();
        byte[] jpeg = TestPictures.jpeg(picture);
        // after SOI and JFIF's APP0 of 2 + 16 octets
        ByteBuffer out = ByteBuffer.allocate(jpeg.length + 18 + profile.length);
        out.put(jpeg, 0, 20).putShort((short) 0xFFE2).putShort((short) (16 + profile.length));
        text(out, "ICC_PROFILE\0");
        out.put((byte) 1).put((byte) 1).put(profile).put(jpeg, 20, jpeg.length - 20);
        return out.array();
    }

    private Preview preview(byte[] jpeg) throws IOException {
        Path file = Files.write(folder.resolve("a.jpg"), jpeg);
        return assertInstanceOf(Preview.class, new PreviewMaker().make(file));
    }

    private double[] middle(Preview preview) throws IOException {
        Path file = Files.write(folder.resolve("shown.jpg"), preview.jpeg());
        byte[] bmp = Program.run("libjpeg-turbo-progs", "djpeg", "-rgb", "-bmp", file.toString());
        BufferedImage shown = ImageIO.read(new ByteArrayInputStream(bmp));
        int rgb = shown.getRGB(shown.getWidth() / 2, shown.getHeight() / 2);
        return new double[] {rgb >> 16 & 0xFF, rgb >> 8 & 0xFF, rgb & 0xFF};
    }

    @ParameterizedTest
    @CsvSource({
        "200, 80, 60",
        "60, 160, 90",
        "128, 128, 128",
        "90, 70, 180",
        "255, 255, 255",
        "230, 180, 150"
    })
    void aWideGamutComesOutInItsColours(int red, int green, int blue) throws IOException {
        Color wide = new Color(red, green, blue);
        double[] expected = asSrgb(wide);
        double[] is = middle(preview(tagged(wide, 400, 300, profile())));
        for (int c = 0; c < 3; c++) {
            assertEquals(expected[c], is[c], 4, "component " + c);
        }
    }

    /** Otherwise the test above would hold without any conversion. */
    @Test
    void withoutTheProfileItWouldBeAnotherColour() {
        double[] expected = asSrgb(new Color(200, 80, 60));
        assertTrue(expected[0] > 212, "red " + expected[0]);
    }

    @Test
    void aBrokenProfileIsShownAsSrgb() throws IOException {
        Color colour = new Color(200, 80, 60);
        double[] plain = {200, 80, 60};
        Random random = new Random(5);
        byte[] noise = new byte[500];
        random.nextBytes(noise);
        byte[] cut = java.util.Arrays.copyOf(profile(), 200);
        byte[] curveGone = profile();
        java.util.Arrays.fill(curveGone, 128 + 4, 128 + 4 + 108, (byte) 0);
        for (byte[] broken : new byte[][] {new byte[0], noise, cut, curveGone}) {
            double[] is = middle(preview(tagged(colour, 400, 300, broken)));
            for (int c = 0; c < 3; c++) {
                assertEquals(plain[c], is[c], 4, "component " + c);
            }
        }
    }

    /** Whatever a profile holds, there is a picture. */
    @Test
    void damageInAProfileNeverCostsThePreview() throws IOException {
        Random random = new Random(6);
        for (int i = 0; i < 150; i++) {
            byte[] damaged = profile();
            for (int k = 0; k <= i % 6; k++) {
                damaged[random.nextInt(damaged.length)] = (byte) random.nextInt();
            }
            assertEquals(64, preview(tagged(Color.ORANGE, 64, 48, damaged)).widthPixels());
        }
    }
}
