package lookstep.server;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.Callable;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.MemoryCacheImageOutputStream;
import lookstep.protocols.image.MpfWriter;
import lookstep.server.frames.PreviewMaker;
import lookstep.server.frames.PreviewResult;
import lookstep.server.frames.StandIn;

/**
 * From a camera's file to a preview, with and without one inside, beside the programs {@code djpeg}
 * and {@code vipsthumbnail} on the same files. A part of {@code server/bench}. Programs pay for
 * their start (about 2 ms for djpeg), which is little beside the decoding.
 */
final class PreviewBench {
    private static final int TIMES = 9;

    private PreviewBench() {}

    public static void main(String[] args) throws Exception {
        run();
    }

    static void run() throws Exception {
        Path folder = Files.createTempDirectory("lookstep-previews");
        try {
            for (int[] size : new int[][] {{6000, 4000}, {8256, 5504}}) {
                measure(folder, size[0], size[1]);
            }
        } finally {
            for (String name : new String[] {"plain.jpg", "with.jpg", "out.jpg"}) {
                Files.deleteIfExists(folder.resolve(name));
            }
            Files.delete(folder);
        }
    }

    private static void measure(Path folder, int width, int height) throws Exception {
        byte[] jpeg = encoded(detail(width, height), 0.95f);
        byte[] inside = encoded(detail(1620, 1080), 0.85f);
        Path plain = Files.write(folder.resolve("plain.jpg"), jpeg);
        Path with = Files.write(folder.resolve("with.jpg"), MpfWriter.append(jpeg, inside));
        System.out.printf(
                Locale.ROOT,
                "%n%d x %d, %.1f MB, median of %d (ms)%n",
                width,
                height,
                jpeg.length / 1e6,
                TIMES);
        PreviewMaker maker = new PreviewMaker();
        double handedOn = row("preview inside, handed on", () -> made(maker.make(with)));
        row("stand-in from the same file", () -> StandIn.of(with));
        double decoded = row("no preview inside, decoded here", () -> made(maker.make(plain)));
        Path out = folder.resolve("out.jpg");
        Optional<Double> djpeg =
                program(
                        "djpeg -scale 1/4",
                        "djpeg",
                        "-scale",
                        "1/4",
                        "-outfile",
                        "/dev/null",
                        plain.toString());
        Optional<Double> vips =
                program(
                        "vipsthumbnail -s 1600",
                        "vipsthumbnail",
                        "-s",
                        "1600",
                        "-o",
                        out.toString(),
                        plain.toString());
        System.out.printf(Locale.ROOT, "  decoded here / handed on: %.0f%n", decoded / handedOn);
        djpeg.ifPresent(
                ms ->
                        System.out.printf(
                                Locale.ROOT, "  decoded here / djpeg: %.2f%n", decoded / ms));
        vips.ifPresent(
                ms ->
                        System.out.printf(
                                Locale.ROOT,
                                "  decoded here / vipsthumbnail: %.2f%n",
                                decoded / ms));
    }

    private static PreviewResult made(PreviewResult result) {
        if (result instanceof PreviewResult.FrameProblem problem) {
            throw new IllegalStateException(problem.words());
        }
        return result;
    }

    private static double row(String what, Callable<?> work) throws Exception {
        double ms = median(work);
        System.out.printf(Locale.ROOT, "  %-34s %8.2f%n", what, ms);
        return ms;
    }

    /** Empty if the program is not installed. */
    private static Optional<Double> program(String what, String... command) throws Exception {
        try {
            return Optional.of(
                    row(
                            what,
                            () -> {
                                Process process =
                                        new ProcessBuilder(command)
                                                .redirectErrorStream(true)
                                                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                                                .start();
                                if (process.waitFor() != 0) {
                                    throw new IllegalStateException(what + " failed");
                                }
                                return process;
                            }));
        } catch (IOException missing) {
            System.out.printf(Locale.ROOT, "  %-34s is not installed%n", what);
            return Optional.empty();
        }
    }

    private static double median(Callable<?> work) throws Exception {
        for (int i = 0; i < 3; i++) {
            work.call();
        }
        double[] ms = new double[TIMES];
        for (int i = 0; i < TIMES; i++) {
            long start = System.nanoTime();
            work.call();
            ms[i] = (System.nanoTime() - start) / 1e6;
        }
        Arrays.sort(ms);
        return ms[TIMES / 2];
    }

    /** Soft shapes with a grain, about as many bytes a pixel as a photograph of a stage. */
    static BufferedImage detail(int width, int height) {
        BufferedImage picture = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        Random random = new Random(width);
        int[] row = new int[width];
        for (int y = 0; y < height; y++) {
            for (int x = 0; x < width; x++) {
                int soft = (int) (90 + 60 * Math.sin(x / 97.0) + 60 * Math.cos(y / 71.0));
                int grain = (random.nextInt() >>> 28) + soft;
                int r = Math.max(0, Math.min(255, grain + 20));
                int g = Math.max(0, Math.min(255, grain));
                int b = Math.max(0, Math.min(255, 230 - grain));
                row[x] = r << 16 | g << 8 | b;
            }
            picture.setRGB(0, y, width, 1, row, 0, width);
        }
        return picture;
    }

    static byte[] encoded(BufferedImage picture, float quality) throws IOException {
        ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
        ByteArrayOutputStream bytes = new ByteArrayOutputStream(1 << 24);
        try (MemoryCacheImageOutputStream out = new MemoryCacheImageOutputStream(bytes)) {
            ImageWriteParam how = writer.getDefaultWriteParam();
            how.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
            how.setCompressionQuality(quality);
            writer.setOutput(out);
            writer.write(null, new IIOImage(picture, null, null), how);
        } finally {
            writer.dispose();
        }
        return bytes.toByteArray();
    }
}
