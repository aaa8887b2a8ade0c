package lookstep.server.framecheck;

import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.image.BufferedImage;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * How long a check of a 1600 pixel preview takes, beside one plain pass over its pixels. Run by
 * hand with the test class path; the prediction is made before.
 */
final class FrameCheckBench {
    private static final int ROUNDS = 15;

    private FrameCheckBench() {}

    public static void main(String[] args) {
        DemoFrames.DemoFrame frame = DemoFrames.of("safe");
        BufferedImage small = frame.picture();
        BufferedImage preview = new BufferedImage(1600, 1067, BufferedImage.TYPE_INT_RGB);
        Graphics2D pen = preview.createGraphics();
        pen.setRenderingHint(
                RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BILINEAR);
        pen.drawImage(small, 0, 0, 1600, 1067, null);
        pen.dispose();
        BufferedImage noisy = DiscBlur.noisy(preview, 2, 1);
        Fingerprint fingerprint = Fingerprint.of(noisy);
        List<KeptPicture> kept =
                IntStream.range(100, 130)
                        .mapToObj(n -> new KeptPicture(n, "safe", fingerprint))
                        .toList();
        Taken taken =
                new Taken(
                        1,
                        frame.shot(),
                        frame.look(),
                        frame.exif().build(),
                        noisy,
                        Optional.empty(),
                        kept);
        FrameChecks checks = new FrameChecks(DemoFrames.PLAN, (s, l) -> Optional.of(small));
        double[] check = new double[ROUNDS];
        double[] plain = new double[ROUNDS];
        long seen = 0;
        for (int i = -ROUNDS; i < ROUNDS; i++) {
            long start = System.nanoTime();
            seen += checks.check(taken).remarks().size();
            long between = System.nanoTime();
            seen += pass(noisy);
            long end = System.nanoTime();
            if (i >= 0) {
                check[i] = (between - start) / 1e6;
                plain[i] = (end - between) / 1e6;
            }
        }
        Arrays.sort(check);
        Arrays.sort(plain);
        System.out.printf(
                Locale.ROOT,
                "check of a 1600 px preview, 30 pictures kept: median %.1f ms, longest %.1f ms;"
                        + " one plain pass over its pixels: median %.1f ms (%d)%n",
                check[ROUNDS / 2],
                check[ROUNDS - 1],
                plain[ROUNDS / 2],
                seen);
    }

    private static long pass(BufferedImage picture) {
        long sum = 0;
        for (int y = 0; y < picture.getHeight(); y++) {
            for (int x = 0; x < picture.getWidth(); x++) {
                int c = picture.getRGB(x, y);
                sum += (c >> 16 & 0xff) + (c >> 8 & 0xff) + (c & 0xff);
            }
        }
        return sum;
    }
}
