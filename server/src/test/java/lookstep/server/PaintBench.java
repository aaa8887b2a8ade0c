package lookstep.server;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Playwright;
import com.microsoft.playwright.options.Cookie;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import lookstep.protocols.image.MpfWriter;
import lookstep.protocols.wire.MemoryLine;
import lookstep.server.end.Browser;
import lookstep.server.gear.Gear;
import lookstep.server.live.Journal;
import lookstep.server.soak.Pages;

/**
 * From a file that is whole in the folder to the picture painted by Chromium, alone and with 49
 * other pages open, beside {@code djpeg -scale 1/4} of the same file. A part of {@code
 * server/bench}. Painted is the second animation frame after the picture was put into the page.
 */
final class PaintBench implements AutoCloseable {
    private static final int TIMES = 9;
    private static final long DEADLINE_MILLIS = 30_000;

    private static final String WATCH =
            """
            window.painted = [];
            document.querySelector('live-picture').addEventListener('shown', ({detail}) => {
              requestAnimationFrame(() => requestAnimationFrame(() =>
                window.painted.push([detail, performance.timeOrigin + performance.now()])));
            });
            """;

    private final Path dir = Files.createTempDirectory("lookstep-paint");
    private final Path frames = Files.createDirectory(dir.resolve("frames"));
    private final Journal journal = Journal.open(dir.resolve("journal"));
    private final Session session;
    private final Playwright playwright = Browser.playwright();
    private final com.microsoft.playwright.Browser chromium = Browser.chromium(playwright);
    private final Page band;
    private final List<Pages> others = new ArrayList<>();
    private int taken;

    private PaintBench() throws IOException {
        Gear gear =
                Gear.onLine(new MemoryLine("memory", new Deaf()), frames, true, Optional.empty());
        session = Session.open(DemoKeeper.in(frames), gear, journal, "127.0.0.1", 0);
        BrowserContext tablet = chromium.newContext();
        tablet.addCookies(
                List.of(
                        new Cookie(session.keys().cookie(), session.keys().band())
                                .setUrl("http://127.0.0.1:" + session.port())));
        band = tablet.newPage();
        band.navigate("http://127.0.0.1:" + session.port() + "/band");
        band.locator("#title:not(:empty)").waitFor();
        band.evaluate(WATCH);
    }

    /** Nobody is lit. */
    private static final class Deaf implements MemoryLine.FarEnd {
        @Override
        public void breakStarted() {}

        @Override
        public void breakEnded() {}

        @Override
        public void received(byte[] bytes) {}
    }

    public static void main(String[] args) throws Exception {
        run();
    }

    static void run() throws Exception {
        System.out.printf(
                "%nfile whole in the folder to painted in Chromium, ms, medians of %d%n", TIMES);
        try (PaintBench bench = new PaintBench()) {
            for (int[] size : new int[][] {{6000, 4000}, {8256, 5504}}) {
                byte[] jpeg = PreviewBench.encoded(PreviewBench.detail(size[0], size[1]), 0.95f);
                byte[] inside = PreviewBench.encoded(PreviewBench.detail(1620, 1080), 0.85f);
                byte[] with = MpfWriter.append(jpeg, inside);
                String what =
                        String.format(
                                Locale.ROOT,
                                "%.0f MP, %.1f MB",
                                size[0] * size[1] / 1e6,
                                jpeg.length / 1e6);
                bench.open(0);
                double djpeg = bench.djpeg(jpeg);
                row(what + ", djpeg -scale 1/4", djpeg, 0);
                row(what + ", preview inside, 1 page", bench.painted(with), djpeg);
                row(what + ", none inside, 1 page", bench.painted(jpeg), djpeg);
                bench.open(49);
                row(what + ", preview inside, 50 pages", bench.painted(with), djpeg);
                row(what + ", none inside, 50 pages", bench.painted(jpeg), djpeg);
            }
        }
    }

    private static void row(String what, double ms, double djpeg) {
        System.out.printf(
                Locale.ROOT,
                "  %-52s %8.1f%s%n",
                what,
                ms,
                djpeg == 0 ? "" : String.format(Locale.ROOT, "   ratio %.2f", ms / djpeg));
    }

    /** So many more pages, which fetch each picture as a browser does. */
    private void open(int count) throws IOException {
        while (others.size() > count) {
            others.remove(others.size() - 1).close();
        }
        String cookie = session.keys().cookie() + "=";
        while (others.size() < count) {
            others.add(
                    new Pages(
                            "127.0.0.1:" + session.port(),
                            cookie + session.keys().crew(),
                            cookie + session.keys().band()));
        }
    }

    private double djpeg(byte[] jpeg) throws Exception {
        Path file = Files.write(dir.resolve("source.jpg"), jpeg);
        List<Double> all = new ArrayList<>();
        for (int i = 0; i < TIMES; i++) {
            long began = System.nanoTime();
            Process djpeg =
                    new ProcessBuilder(
                                    "djpeg",
                                    "-scale",
                                    "1/4",
                                    "-outfile",
                                    "/dev/null",
                                    file.toString())
                            .inheritIO()
                            .start();
            if (djpeg.waitFor() != 0) {
                throw new IOException("djpeg failed");
            }
            all.add((System.nanoTime() - began) / 1e6);
        }
        return median(all);
    }

    private double painted(byte[] jpeg) throws Exception {
        List<Double> all = new ArrayList<>();
        for (int i = 0; i < TIMES + 1; i++) {
            taken++;
            Path part = dir.resolve("frames").resolve(".arriving");
            // the same picture twice would be one frame
            byte[] one = java.util.Arrays.copyOf(jpeg, jpeg.length + 4);
            one[jpeg.length + 2] = (byte) (taken >> 8);
            one[jpeg.length + 3] = (byte) taken;
            Files.write(part, one);
            double whole = Instant.EPOCH.until(Instant.now(), ChronoUnit.MICROS) / 1000.0;
            Files.move(part, frames.resolve("P%04d.JPG".formatted(taken)));
            double ms = paintedAt(taken) - whole;
            if (i > 0) {
                all.add(ms);
            }
            // the checks of this frame are not to be in the way of the next one's picture
            Thread.sleep(1500);
        }
        return median(all);
    }

    /** When the preview, not what stands in for it, was painted. */
    private double paintedAt(int number) throws IOException {
        long deadline = System.currentTimeMillis() + DEADLINE_MILLIS;
        while (System.currentTimeMillis() < deadline) {
            Object at =
                    band.evaluate(
                            "n => (window.painted.find(([url]) => url.startsWith(`/frames/${n}.jpg`)"
                                    + " && !url.includes('small')) ?? [null, null])[1]",
                            number);
            if (at != null) {
                return ((Number) at).doubleValue();
            }
            band.waitForTimeout(20);
        }
        throw new IOException("frame " + number + " was not painted for 30 s");
    }

    private static double median(List<Double> all) {
        List<Double> sorted = all.stream().sorted().toList();
        return sorted.get(sorted.size() / 2);
    }

    @Override
    public void close() throws IOException {
        for (Pages one : others) {
            one.close();
        }
        chromium.close();
        playwright.close();
        session.close();
        journal.close();
    }
}
