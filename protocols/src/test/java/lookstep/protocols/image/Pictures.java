package lookstep.protocols.image;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.Random;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.ImageOutputStream;
import lookstep.protocols.Annotated;

/** JPEG files for tests: some by the JDK's encoder, some laid out by hand after ITU-T T.81. */
final class Pictures {
    private Pictures() {}

    /** Noise, which makes long scans with many stuffed FF octets. */
    static byte[] encoded(int width, int height, boolean progressive) throws IOException {
        BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        Random random = new Random(width);
        for (int y = 0; y < height; y++) {
            for (int x = 0; x < width; x++) {
                image.setRGB(x, y, random.nextInt(0x1000000));
            }
        }
        return encoded(image, progressive);
    }

    /** Nothing but black, so that a large picture is short. */
    static byte[] black(int width, int height) throws IOException {
        return encoded(new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB), false);
    }

    /** By the JDK's TIFF writer, in several uncompressed strips. */
    static byte[] tiff(int width, int height) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        image.setRGB(1, 1, 0xFF8040);
        if (!ImageIO.write(image, "tiff", out)) {
            throw new IOException("the JDK has no TIFF writer");
        }
        return out.toByteArray();
    }

    private static byte[] encoded(BufferedImage image, boolean progressive) throws IOException {
        ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
        ImageWriteParam how = writer.getDefaultWriteParam();
        how.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
        how.setCompressionQuality(0.95f);
        how.setProgressiveMode(
                progressive ? ImageWriteParam.MODE_DEFAULT : ImageWriteParam.MODE_DISABLED);
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (ImageOutputStream into = ImageIO.createImageOutputStream(out)) {
            writer.setOutput(into);
            writer.write(null, new IIOImage(image, null, null), how);
        } finally {
            writer.dispose();
        }
        return out.toByteArray();
    }

    /** Everything a walk may stumble over; its structure is right, its coded data means nothing. */
    static byte[] awkward() {
        return Annotated.bytes(
                """
                FFD8                     # SOI
                FFE0 0009 AABB FFD9 CCDD EE # APP0 that holds an end marker
                FFFF FFFF FE 0004 FFD9   # fill octets, then COM that holds an end marker
                FFDB 0004 FFD8           # DQT that holds a start marker
                FFC2 000B 08 0010 0018 01 011100 # SOF2 progressive: 8 bits, 16 high, 24 wide
                FFDD 0004 0001           # DRI
                FFDA 0008 01 0100 00 00 00 # SOS
                12 FF00 34 FFD0 56 FF00 FFD7 # coded data: stuffed FF, RST0, RST7
                FFFF FFC4 0004 0000      # fill octets, DHT between scans
                FFDA 0008 01 0100 01 3F 00 # SOS of a second scan
                FF00 FF00 77             # coded data
                FFD9                     # EOI
                """);
    }

    /**
     * A picture with a further one behind it and an MPF index that names both (CIPA DC-007, layout
     * as ExifTool 12.57 reads it).
     */
    static byte[] withFurther(byte[] main, byte[] further) {
        // SOI, then APP2 of 2 + 2 + 86 - 2 octets, then the rest of the main picture
        int mark = 2 + 4 + 4;
        int mainSize = main.length + 90;
        byte[] index =
                Annotated.bytes(
                        """
                        FFE2 0058        # APP2, 88 octets
                        4D504600         # "MPF" NUL
                        4D4D 002A        # most significant octet first, 42
                        00000008         # the index begins 8 octets after the byte order mark
                        0003             # three fields
                        B000 0007 00000004 30313030 # version 0100
                        B001 0004 00000001 00000002 # two pictures
                        B002 0007 00000020 00000032 # their entries, 32 octets at offset 50
                        00000000         # no further directory
                        00030000         # 1: baseline primary picture
                        %08X             # its size
                        00000000         # it begins with the file
                        0000 0000        # no dependent pictures
                        00010002         # 2: large thumbnail, full HD class
                        %08X             # its size
                        %08X             # where it begins, from the byte order mark
                        0000 0000        # no dependent pictures
                        """
                                .formatted(mainSize, further.length, mainSize - mark));
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        out.write(main, 0, 2);
        out.writeBytes(index);
        out.write(main, 2, main.length - 2);
        out.writeBytes(further);
        return out.toByteArray();
    }
}
