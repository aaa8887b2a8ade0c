package lookstep.server;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.WebSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.locks.LockSupport;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.imageio.ImageIO;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.protocols.wire.MemoryLine;
import lookstep.server.gear.Gear;
import lookstep.server.live.Journal;
import lookstep.server.loop.LoopThread;
import lookstep.server.order.OrderBench;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plan.file.DemoShoot;
import lookstep.server.prediction.Staging;
import lookstep.server.suggest.SuggestBench;
import lookstep.simulator.gear.LightListener;
import lookstep.simulator.gear.PtyFarEnd;
import lookstep.simulator.gear.SocatPair;
import lookstep.simulator.model.picture.Renderer;

/**
 * How quick the chain is, on this machine and now: medians and tails, beside something to compare
 * with in the same run. Run by {@code server/bench}.
 */
final class Bench implements AutoCloseable {
    private static final int PRESSES = 60;
    private static final int FILES = 25;
    private static final int STEADY_SECONDS = 30;
    private static final long DEADLINE_NANOS = TimeUnit.SECONDS.toNanos(30);
    private static final Pattern FRAME = Pattern.compile("\"frame\":\\{\"number\":(\\d+)");

    private final Path dir = Files.createTempDirectory("lookstep-bench");
    private final ShootPlan plan = DemoShoot.read(GenericFixtures.all());
    private final AtomicLong lastFrameNumber = new AtomicLong();
    private final AtomicLong lastFrameNanos = new AtomicLong();
    private final FarEnd far = new FarEnd();
    private final Journal journal;
    private final Session session;
    private final HttpClient http = HttpClient.newHttpClient();
    private final WebSocket band;
    private final String at;

    /** Notes when a packet that differs from the one before came in. */
    private static final class FarEnd implements MemoryLine.FarEnd {
        private byte[] last = new byte[0];
        private volatile long changedNanos;

        @Override
        public void breakStarted() {}

        @Override
        public void breakEnded() {}

        @Override
        public void received(byte[] bytes) {
            if (!Arrays.equals(bytes, last)) {
                last = bytes;
                changedNanos = System.nanoTime();
            }
        }
    }

    private Bench() throws IOException {
        Path frames = Files.createDirectory(dir.resolve("frames"));
        Gear gear = Gear.onLine(new MemoryLine("memory", far), frames, true, Optional.empty());
        journal = Journal.open(dir.resolve("journal"));
        session = Session.open(DemoKeeper.in(dir), gear, journal, "127.0.0.1", 0);
        at = "127.0.0.1:" + session.port();
        band =
                http.newWebSocketBuilder()
                        .header("Cookie", session.keys().cookie() + "=" + session.keys().band())
                        .buildAsync(URI.create("ws://" + at + "/push/band"), new Listener())
                        .join();
    }

    private final class Listener implements WebSocket.Listener {
        private final StringBuilder text = new StringBuilder();

        @Override
        public CompletionStage<?> onText(WebSocket socket, CharSequence data, boolean whole) {
            text.append(data);
            if (whole) {
                Matcher m = FRAME.matcher(text);
                if (m.find() && Long.parseLong(m.group(1)) > lastFrameNumber.get()) {
                    lastFrameNanos.set(System.nanoTime());
                    lastFrameNumber.set(Long.parseLong(m.group(1)));
                }
                text.setLength(0);
            }
            socket.request(1);
            return null;
        }
    }

    public static void main(String[] args) throws Exception {
        System.out.printf(
                "%s, Java %s, %d processors%n",
                System.getProperty("os.name"),
                System.getProperty("java.version"),
                Runtime.getRuntime().availableProcessors());
        SlotsBench.run();
        PreviewBench.run();
        OrderBench.run();
        PlatesBench.run();
        SuggestBench.run();
        try (Bench bench = new Bench()) {
            bench.keyToPacket();
            bench.fileToPush("a rehearsal's picture, 1200 x 800", picture(1200, 800));
            bench.fileToPush("24 megapixels, 6000 x 4000", picture(6000, 4000));
            bench.periodWhileBusy();
        }
        PaintBench.run();
        killedAndBack();
    }

    private void keyToPacket() throws Exception {
        List<Long> answered = new ArrayList<>();
        List<Long> onTheLine = new ArrayList<>();
        for (int i = 0; i < PRESSES; i++) {
            // Changes begin at most three times a second, and not in step with the packets.
            Thread.sleep(400 + (i * 7) % 30);
            int position = session.live().state().position();
            boolean forward = position < 2;
            long pressed = System.nanoTime();
            HttpRequest press =
                    HttpRequest.newBuilder(
                                    URI.create("http://" + at + (forward ? "/step" : "/back")))
                            .header("Cookie", session.keys().cookie() + "=" + session.keys().crew())
                            .header("X-Lookstep", "1")
                            .POST(HttpRequest.BodyPublishers.ofString("{\"at\":" + position + "}"))
                            .build();
            int status = http.send(press, HttpResponse.BodyHandlers.discarding()).statusCode();
            if (status != 200) {
                throw new IOException("the press was answered by " + status);
            }
            answered.add(System.nanoTime() - pressed);
            boolean lightChanges = position > 0 && !(position == 1 && !forward);
            if (lightChanges) {
                await(() -> far.changedNanos - pressed > 0);
                onTheLine.add(far.changedNanos - pressed);
            }
        }
        System.out.println("\nkey (over HTTP, durable in the journal)");
        row("pressed to answered", answered);
        row("pressed to first changed packet sent", onTheLine);
    }

    private void fileToPush(String what, byte[] jpeg) throws Exception {
        Path source = Files.write(dir.resolve("source.jpg"), jpeg);
        List<Long> pushed = new ArrayList<>();
        List<Long> compared = new ArrayList<>();
        for (int i = 0; i < FILES; i++) {
            long expected = lastFrameNumber.get() + 1;
            Path part = dir.resolve("frames").resolve(".arriving");
            Files.copy(source, part, StandardCopyOption.REPLACE_EXISTING);
            // the same picture twice would be one frame
            Files.write(part, new byte[] {0, (byte) i}, StandardOpenOption.APPEND);
            long whole = System.nanoTime();
            Files.move(part, dir.resolve("frames").resolve("F%d-%d.JPG".formatted(jpeg.length, i)));
            await(() -> lastFrameNumber.get() >= expected);
            pushed.add(lastFrameNanos.get() - whole);
            long began = System.nanoTime();
            Process djpeg =
                    new ProcessBuilder(
                                    "djpeg",
                                    "-scale",
                                    "1/4",
                                    "-outfile",
                                    "/dev/null",
                                    source.toString())
                            .inheritIO()
                            .start();
            if (djpeg.waitFor() != 0) {
                throw new IOException("djpeg failed");
            }
            compared.add(System.nanoTime() - began);
        }
        System.out.printf(
                "%nfile whole in the folder to message on the band's page: %s, %.1f MB%n",
                what, jpeg.length / 1e6);
        row("journal, 1600-pixel preview, push", pushed);
        row("djpeg -scale 1/4 of the same file, for comparison", compared);
        System.out.printf(
                Locale.ROOT,
                "  %-52s %.2f%n",
                "ratio of the medians",
                (double) median(pushed) / median(compared));
    }

    private void periodWhileBusy() throws Exception {
        AtomicBoolean done = new AtomicBoolean();
        byte[] jpeg = picture(1200, 800);
        Thread renders =
                new Thread(
                        () -> {
                            Shot shot = plan.shots().get(0);
                            while (!done.get()) {
                                Renderer.plates(
                                        Staging.scene(plan, shot),
                                        Staging.camera(plan, shot),
                                        720,
                                        480);
                            }
                        });
        renders.start();
        List<Long> empty = new ArrayList<>();
        long[] before = new long[1];
        LoopThread beside =
                LoopThread.startPrecise(
                        "empty loop",
                        now -> {
                            if (before[0] != 0) {
                                empty.add(now - before[0]);
                            }
                            before[0] = now;
                            return now + 30_000_000;
                        });
        long packetsBefore = session.periods().counted();
        for (int i = 0; i < STEADY_SECONDS; i++) {
            byte[] one = Arrays.copyOf(jpeg, jpeg.length + 2);
            one[jpeg.length + 1] = (byte) i;
            Files.write(dir.resolve("frames").resolve("B%d.JPG".formatted(i)), one);
            Thread.sleep(1000);
        }
        beside.close();
        done.set(true);
        renders.join();
        long[] all = session.periods().sorted();
        System.out.printf(
                "%nbreak to break while a picture renders all the time and a frame comes each second, %d packets%n",
                session.periods().counted() - packetsBefore);
        row("the line", Arrays.stream(all).boxed().toList());
        row("an empty loop of 30 ms in the same run", empty);
    }

    /** The packaged program: killed, started again, until the lights hear it. */
    private static void killedAndBack() throws Exception {
        Path dir = Files.createTempDirectory("lookstep-bench");
        Path planFile = Files.writeString(dir.resolve("demo.shoot.yaml"), DemoShoot.text());
        Path frames = Files.createDirectory(dir.resolve("frames"));
        List<Long> back = new ArrayList<>();
        try (SocatPair nodes = SocatPair.start(dir)) {
            LightListener lights = LightListener.byLength(List.of());
            PtyFarEnd end = new PtyFarEnd(nodes.far(), lights);
            LoopThread far =
                    LoopThread.start(
                            "far end",
                            now -> {
                                end.doWork(now);
                                return now + 700_000;
                            });
            for (int i = 0; i < 7; i++) {
                Process lookstep =
                        new ProcessBuilder(
                                        Path.of(System.getProperty("java.home"), "bin", "java")
                                                .toString(),
                                        "-jar",
                                        System.getProperty("lookstep.jar"),
                                        "shoot",
                                        planFile.toString(),
                                        "--line",
                                        nodes.near().toString(),
                                        "--frames",
                                        frames.toString(),
                                        "--http",
                                        "127.0.0.1:0")
                                .redirectErrorStream(true)
                                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                                .start();
                long began = System.nanoTime();
                long packets = lights.snapshot().packets();
                await(() -> lights.snapshot().packets() > packets);
                back.add(System.nanoTime() - began);
                Thread.sleep(1500);
                lookstep.destroyForcibly().waitFor();
                Thread.sleep(200);
            }
            far.close();
            end.close();
        }
        System.out.println(
                "\nthe program started again after kill -9, to the first packet at the far end");
        row("java -jar lookstep.jar shoot", back);
    }

    /** Detail as a photograph has it: smooth shapes, edges and grain. */
    static byte[] picture(int width, int height) throws IOException {
        BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        Random random = new Random(1);
        for (int y = 0; y < height; y++) {
            for (int x = 0; x < width; x++) {
                int grain = random.nextInt(24);
                int r = (int) (100 + 60 * Math.sin(x * 0.011) + grain);
                int g = (int) (100 + 60 * Math.sin(y * 0.017) + grain);
                int b = ((x / 64 + y / 64) & 1) * 60 + grain;
                image.setRGB(x, y, r << 16 | g << 8 | b);
            }
        }
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ImageIO.write(image, "jpeg", out);
        return out.toByteArray();
    }

    private interface Condition {
        boolean holds();
    }

    private static void await(Condition condition) throws IOException {
        long began = System.nanoTime();
        while (!condition.holds()) {
            if (System.nanoTime() - began > DEADLINE_NANOS) {
                throw new IOException("nothing came for 30 s");
            }
            LockSupport.parkNanos(100_000);
        }
    }

    private static long median(List<Long> nanos) {
        return nanos.stream().sorted().skip(nanos.size() / 2).findFirst().orElseThrow();
    }

    private static void row(String what, List<Long> nanos) {
        List<Long> sorted = nanos.stream().sorted().toList();
        int n = sorted.size();
        System.out.printf(
                Locale.ROOT,
                "  %-52s n %4d  least %.2f  p50 %.2f  p99 %.2f  max %.2f ms%n",
                what,
                n,
                sorted.get(0) / 1e6,
                sorted.get(n / 2) / 1e6,
                sorted.get(Math.min(n - 1, n * 99 / 100)) / 1e6,
                sorted.get(n - 1) / 1e6);
    }

    @Override
    public void close() {
        band.abort();
        session.close();
        journal.close();
    }
}
