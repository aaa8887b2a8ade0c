package lookstep.server.frames;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.sun.management.ThreadMXBean;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.ByteBuffer;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;
import java.util.Optional;
import java.util.Random;
import lookstep.protocols.image.DngWriter;
import lookstep.protocols.image.ExifData;
import lookstep.server.frames.PictureCheck.Verdict;
import lookstep.server.frames.PreviewResult.FrameProblem;
import lookstep.server.frames.PreviewResult.Preview;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Files that are cut, damaged, or made to harm: no exception, and memory stays bounded. */
class HostileFilesTest {
    private static final ThreadMXBean THREADS = (ThreadMXBean) ManagementFactory.getThreadMXBean();

    @TempDir Path folder;

    private interface Step {
        void run() throws IOException;
    }

    /** What the calling thread takes from the heap meanwhile. */
    private static long allocatedBytes(Step step) throws IOException {
        long before = THREADS.getCurrentThreadAllocatedBytes();
        step.run();
        return THREADS.getCurrentThreadAllocatedBytes() - before;
    }

    private Path file(String name, byte[] bytes) throws IOException {
        return Files.write(folder.resolve(name), bytes);
    }

    private static byte[] camera() {
        return TestPictures.twoInOne(
                TestPictures.jpeg(120, 80), TestPictures.jpeg(1600, 1066), new int[1]);
    }

    private static byte[] raw(byte[] preview) {
        return DngWriter.write(ExifData.UNKNOWN, preview, 60, 40, new byte[2400]);
    }

    /** The size of a JPEG's first frame header is changed to this. */
    private static byte[] claiming(byte[] jpeg, int width, int height) {
        byte[] changed = jpeg.clone();
        int sof = 2;
        while ((changed[sof + 1] & 0xFF) != 0xC0) {
            sof += 2 + ((changed[sof + 2] & 0xFF) << 8) + (changed[sof + 3] & 0xFF);
        }
        ByteBuffer.wrap(changed).putShort(sof + 5, (short) height).putShort(sof + 7, (short) width);
        return changed;
    }

    private static void tryAll(Path file) {
        PreviewResult made = new PreviewMaker().make(file);
        assertTrue(made instanceof Preview || made instanceof FrameProblem);
        StandIn.of(file);
        FullSize.size(file);
    }

    @Test
    void cutsAndDamageAreNeverExceptions() throws IOException {
        Random random = new Random(17);
        for (String name : new String[] {"a.jpg", "a.dng"}) {
            byte[] whole = name.endsWith("jpg") ? camera() : raw(TestPictures.jpeg(1600, 1066));
            assertInstanceOf(Preview.class, new PreviewMaker().make(file(name, whole)));
            for (int percent = 0; percent < 100; percent += 4) {
                tryAll(file(name, Arrays.copyOf(whole, whole.length * percent / 100)));
            }
            for (int round = 0; round < 60; round++) {
                byte[] flipped = whole.clone();
                for (int i = 0; i <= round % 4; i++) {
                    int at = random.nextInt(round % 2 == 0 ? 300 : flipped.length);
                    flipped[at] ^= (byte) (1 << random.nextInt(8));
                }
                tryAll(file(name, flipped));
            }
        }
    }

    @Test
    void aHeaderThatClaimsBillionsOfPixelsTakesNoMemory() throws IOException {
        // libjpeg itself stops at 65500 (jmorecfg.h)
        for (int side : new int[] {65500, 65535}) {
            byte[] bomb = claiming(TestPictures.jpeg(64, 48), side, side);
            for (Path file : new Path[] {file("bomb.jpg", bomb), file("bomb.nef", raw(bomb))}) {
                long bytes =
                        allocatedBytes(
                                () -> {
                                    FrameProblem problem =
                                            assertInstanceOf(
                                                    FrameProblem.class,
                                                    new PreviewMaker().make(file));
                                    assertTrue(problem.words().contains("65500"), problem.words());
                                    assertInstanceOf(
                                            FrameProblem.class,
                                            FullSize.crop(file, 0, 0, 2000, 2000));
                                    assertEquals(Optional.empty(), FullSize.size(file));
                                });
                assertTrue(bytes < 20_000_000, bytes + " bytes for " + file);
            }
        }
    }

    /** A part of a large picture takes the part's memory, not the picture's 270 MB. */
    @Test
    void aPartTakesThePartsMemory() throws IOException {
        Path file = file("large.jpg", TestPictures.jpeg(6000, 4000));
        long bytes =
                allocatedBytes(
                        () ->
                                assertInstanceOf(
                                        Preview.class, FullSize.crop(file, 5000, 3000, 500, 500)));
        assertTrue(bytes < 30_000_000, bytes + " bytes");
    }

    private Path sparse(String name, byte[] head, long size, byte[] tail) throws IOException {
        Path file = folder.resolve(name);
        try (SeekableByteChannel out =
                Files.newByteChannel(
                        file,
                        StandardOpenOption.CREATE_NEW,
                        StandardOpenOption.WRITE,
                        StandardOpenOption.SPARSE)) {
            out.write(ByteBuffer.wrap(head));
            out.position(size - tail.length);
            out.write(ByteBuffer.wrap(tail));
        }
        return file;
    }

    @Test
    void filesOfGigabytesAreNotReadIntoMemory() throws IOException {
        byte[] jpeg = TestPictures.jpeg(64, 48);
        long size = 2_200_000_000L;
        Path stopped = sparse("a.jpg", Arrays.copyOf(jpeg, jpeg.length - 2), size, new byte[] {1});
        Path nothing = sparse("b.dng", new byte[0], size, new byte[] {1});
        Path other = sparse("c.cr3", new byte[0], size, new byte[] {1});
        long bytes =
                allocatedBytes(
                        () -> {
                            assertEquals(
                                    Verdict.NOT_YET,
                                    PictureCheck.of(stopped, PictureKind.JPEG).verdict());
                            assertEquals(
                                    Verdict.NOT_A_PICTURE,
                                    PictureCheck.of(nothing, PictureKind.TIFF_RAW).verdict());
                            assertEquals(
                                    Verdict.WHOLE,
                                    PictureCheck.of(other, PictureKind.OTHER_RAW).verdict());
                            assertInstanceOf(FrameProblem.class, new PreviewMaker().make(nothing));
                            assertInstanceOf(FrameProblem.class, new PreviewMaker().make(other));
                            assertEquals(Optional.empty(), StandIn.of(other));
                        });
        assertTrue(bytes < 10_000_000, bytes + " bytes");
    }

    /** Offsets in TIFF go to 4 GiB. */
    @Test
    void aPreviewThreeGigabytesIntoARawFileIsFound() throws IOException {
        byte[] preview = TestPictures.jpeg(1600, 1066);
        long size = 3_200_000_000L;
        ByteBuffer head = ByteBuffer.allocate(38);
        // TIFF 6.0, most significant octet first: one directory with a JPEG's offset and length
        head.put((byte) 'M').put((byte) 'M').putShort((short) 42).putInt(8).putShort((short) 2);
        head.putShort((short) 0x0201).putShort((short) 4).putInt(1);
        head.putInt((int) (size - preview.length));
        head.putShort((short) 0x0202).putShort((short) 4).putInt(1).putInt(preview.length);
        head.putInt(0);
        Path file = sparse("far.arw", head.array(), size, preview);
        assertEquals(Verdict.WHOLE, PictureCheck.of(file, PictureKind.TIFF_RAW).verdict());
        long bytes =
                allocatedBytes(
                        () ->
                                assertEquals(
                                        1600,
                                        assertInstanceOf(
                                                        Preview.class,
                                                        new PreviewMaker().make(file))
                                                .widthPixels()));
        assertTrue(bytes < 3_000_000, bytes + " bytes");
    }
}
