package lookstep.server.end;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static lookstep.server.end.Lookstep.until;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.microsoft.playwright.APIResponse;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Playwright;
import com.microsoft.playwright.options.RequestOptions;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.server.loop.LoopThread;
import lookstep.server.plan.Light;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.file.PlanReader;
import lookstep.server.plan.file.PlanReading;
import lookstep.server.prediction.Predictions;
import lookstep.server.prediction.Staging;
import lookstep.simulator.gear.CardWriter;
import lookstep.simulator.gear.LightListener;
import lookstep.simulator.gear.PatchedLight;
import lookstep.simulator.gear.PtyFarEnd;
import lookstep.simulator.gear.SacnFarEnd;
import lookstep.simulator.gear.SacnListener;
import lookstep.simulator.gear.SimulatedCamera;
import lookstep.simulator.gear.SocatPair;
import lookstep.simulator.gear.View;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The chain with nothing put in for a part of it: {@code lookstep shoot} as a process of its own, a
 * pair of device nodes, lights that read the far one, a camera that writes into the folder, and
 * Chromium before the pages.
 */
class WholeChainIT {
    private static final JsonMapper JSON = JsonMapper.builder().build();
    private static final double NOT_A_DOUBLE_TAP_MILLIS = 300;

    @TempDir Path dir;

    private Path plan;
    private Path frames;
    private ShootPlan read;
    private SocatPair nodes;
    private LightListener lights;
    private PtyFarEnd farEnd;
    private LoopThread farThread;
    private Lookstep lookstep;
    private Playwright playwright;
    private com.microsoft.playwright.Browser chromium;
    private volatile int shotOnSet;

    @BeforeEach
    void putUp() throws IOException {
        plan = dir.resolve("wall.shoot.yaml");
        try (InputStream in =
                WholeChainIT.class.getResourceAsStream("/lookstep/end/wall.shoot.yaml")) {
            Files.copy(in, plan);
        }
        read = ((PlanReading.Good) new PlanReader(GenericFixtures.all()).read(plan)).plan();
        frames = Files.createDirectory(dir.resolve("frames"));
        nodes = SocatPair.start(dir);
        Light key = read.rig().get(0);
        lights =
                LightListener.byLength(
                        List.of(
                                new PatchedLight(
                                        key.name(), key.fixture(), key.mode(), key.startSlot())));
        farEnd = new PtyFarEnd(nodes.far(), lights);
        farThread =
                LoopThread.start(
                        "far end",
                        now -> {
                            farEnd.doWork(now);
                            return now + 700_000;
                        });
        playwright = Browser.playwright();
        chromium = Browser.chromium(playwright);
        lookstep = shoot();
    }

    @AfterEach
    void takeDown() {
        lookstep.close();
        chromium.close();
        playwright.close();
        farThread.close();
        farEnd.close();
        nodes.close();
    }

    private Lookstep shoot() throws IOException {
        return Lookstep.start(
                dir,
                "shoot",
                plan.toString(),
                "--line",
                nodes.near().toString(),
                "--frames",
                frames.toString(),
                "--http",
                "127.0.0.1:0");
    }

    private SimulatedCamera camera() {
        return new SimulatedCamera(
                () ->
                        new View(
                                Staging.scene(read, read.shots().get(shotOnSet)),
                                List.of("key"),
                                Predictions.houseWhite(read),
                                Staging.camera(read, read.shots().get(shotOnSet))),
                lights::snapshot,
                Clock.system(ZoneId.systemDefault()),
                new CardWriter(frames),
                600,
                400,
                1);
    }

    private static void open(BrowserContext context, String link, String awaited) {
        Page page = context.newPage();
        page.navigate(link);
        page.locator(awaited).first().waitFor();
    }

    private Page open(BrowserContext context, String link) {
        Page page = context.newPage();
        page.navigate(link);
        if (!link.equals(lookstep.link(2))) {
            page.locator("step-key .name:has-text('Start with')").waitFor();
        }
        return page;
    }

    /** A person's press: not so soon after the one before that the page takes it for the same. */
    private static void press(Page page, String key) {
        page.waitForTimeout(NOT_A_DOUBLE_TAP_MILLIS);
        page.keyboard().press(key);
    }

    /** Slots 101 and 102: warm, coarse and fine. */
    private int warm() {
        byte[] slots = lights.lastSlots();
        return (slots[100] & 0xff) * 256 + (slots[101] & 0xff);
    }

    /** Slots 103 and 104: cool, coarse and fine. */
    private int cool() {
        byte[] slots = lights.lastSlots();
        return (slots[102] & 0xff) * 256 + (slots[103] & 0xff);
    }

    /**
     * The emitters' chromaticities are rounded to four digits, so a pure white is a thousandth off.
     */
    private void untilLevels(String what, int warm, int cool) {
        until(
                what,
                () -> Math.abs(warm() - warm) < 66 && Math.abs(cool() - cool) < 66,
                () -> "warm %d, cool %d".formatted(warm(), cool()));
    }

    /**
     * Mean linear red, green, blue of the wall beside the person, as Chromium shows the band's
     * picture.
     */
    private static double[] wall(Page band) {
        Object mean =
                band.evaluate(
                        """
                        () => {
                          const img = document.querySelector('live-picture img, img');
                          const c = document.createElement('canvas');
                          c.width = img.naturalWidth; c.height = img.naturalHeight;
                          const g = c.getContext('2d', {colorSpace: 'srgb'});
                          g.drawImage(img, 0, 0);
                          const w = Math.round(c.width * 0.08), h = Math.round(c.height * 0.15);
                          const d = g.getImageData(Math.round(c.width * 0.22), Math.round(c.height * 0.25), w, h).data;
                          const linear = (v) => v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
                          const sum = [0, 0, 0];
                          for (let i = 0; i < d.length; i += 4)
                            for (let k = 0; k < 3; k++) sum[k] += linear(d[i + k] / 255);
                          return sum.map((s) => s / (w * h));
                        }
                        """);
        return ((List<?>) mean).stream().mapToDouble(v -> ((Number) v).doubleValue()).toArray();
    }

    private void photographAndAwait(SimulatedCamera camera, Page band, int number)
            throws IOException {
        assertTrue(camera.photograph().isPresent());
        Locator picture = band.locator("img[alt='Picture " + number + "']:not([src*='small'])");
        picture.waitFor();
        until(
                "picture " + number + " is decoded",
                () -> (Boolean) picture.evaluate("i => i.complete && i.naturalWidth > 0"));
    }

    @Test
    void oneKeyMovesTheLightAndTheBandSeesIt() throws IOException {
        BrowserContext crew = chromium.newContext();
        BrowserContext tablet = chromium.newContext();
        Page next = open(crew, lookstep.link(0));
        Page band = open(tablet, lookstep.link(2));
        // Before the first step people set up: 10 % of the warm emitter, none of the cool.
        // 16 bit, linear: 0.1 x 65535 = 6553.5.
        untilLevels("the work light is on", 0x1999, 0);

        press(next, "PageDown");
        assertThat(next.locator("now-shot .name")).hasText("Matched");
        // 0.5 x 65535 = 32767.5, rounded up to 0x8000.
        untilLevels("the first look is on", 0x8000, 0);
        SimulatedCamera camera = camera();
        photographAndAwait(camera, band, 1);
        double[] matched = wall(band);

        press(next, "Space");
        assertThat(next.locator("now-shot .name")).hasText("Warm");
        shotOnSet = 1;
        // 0.25 x 65535 = 16383.75 = 0x4000.
        untilLevels("the fade to the second look has ended", 0x4000, 0);
        photographAndAwait(camera, band, 2);
        double[] warm = wall(band);

        next.waitForTimeout(NOT_A_DOUBLE_TAP_MILLIS);
        next.locator("step-key button").click();
        assertThat(next.locator("now-shot .name")).hasText("Cold");
        shotOnSet = 2;
        untilLevels("the third look is on", 0, 0xffff);
        photographAndAwait(camera, band, 3);
        double[] cold = wall(band);

        // A light at the camera's own white balance is neutral; 8 bits, grain and JPEG allowed for.
        assertEquals(1, matched[0] / matched[1], 0.04, Arrays.toString(matched));
        assertEquals(1, matched[2] / matched[1], 0.04, Arrays.toString(matched));
        assertEquals(1, cold[0] / cold[1], 0.04, Arrays.toString(cold));
        assertEquals(1, cold[2] / cold[1], 0.04, Arrays.toString(cold));
        // Planckian 2700 K seen by a camera balanced for Planckian 3000 K, Bradford to D65, linear
        // sRGB 1.15221 0.95914 0.76915: CIE 1931 2-degree, computed outside of this project and
        // confirmed there by the npm library colorjs.io 0.7.1.
        assertEquals(1.15221 / 0.95914, warm[0] / warm[1], 0.04, Arrays.toString(warm));
        assertEquals(0.76915 / 0.95914, warm[2] / warm[1], 0.04, Arrays.toString(warm));
        // Half the light is a stop less: luminance of sRGB (IEC 61966-2-1) 0.2126 0.7152 0.0722,
        // 0.985 of it left after the shift in white balance by the same computation.
        double luminance = 0.2126 * 1.15221 + 0.7152 * 0.95914 + 0.0722 * 0.76915;
        double ratio =
                (0.2126 * warm[0] + 0.7152 * warm[1] + 0.0722 * warm[2])
                        / (0.2126 * matched[0] + 0.7152 * matched[1] + 0.0722 * matched[2]);
        assertEquals(0.5 * luminance, ratio, 0.03);

        // The band's page cannot change anything, and its key opens nothing that can.
        assertEquals(0, band.locator("button, input, select, textarea, a, form").count());
        assertEquals(
                403,
                tablet.request().get(lookstep.link(2).replaceAll("/open/.*", "/next")).status());
        assertEquals(
                403,
                tablet.request().post(lookstep.link(2).replaceAll("/open/.*", "/step")).status());
        assertThat(next.locator("now-shot .name")).hasText("Cold");
    }

    /** Starting a clock that runs changes nothing and is answered by the whole state. */
    private static JsonNode clockStarted(BrowserContext crew, int port) {
        try {
            return JSON.readTree(
                    crew.request()
                            .post(
                                    "http://127.0.0.1:" + port + "/clock",
                                    RequestOptions.create()
                                            .setHeader("X-Lookstep", "1")
                                            .setData("{\"do\":\"start\"}"))
                            .text());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static int frames(JsonNode state) {
        int sum = 0;
        for (JsonNode shot : state.path("shots")) {
            sum += shot.path("frames").asInt();
        }
        return sum;
    }

    @Test
    void killedAtAnyMomentTheSameCommandGoesOnAtTheSameShotLookAndClock() throws IOException {
        BrowserContext crew = chromium.newContext();
        Page next = open(crew, lookstep.link(0));
        press(next, "Enter");
        assertThat(next.locator("now-shot .name")).hasText("Matched");
        press(next, "Enter");
        assertThat(next.locator("now-shot .name")).hasText("Warm");
        untilLevels("the second look is on", 0x4000, 0);
        int port = Integer.parseInt(lookstep.link(0).replaceAll(".*:(\\d+)/open/.*", "$1"));

        assertTrue(camera().photograph().isPresent());
        JsonNode before = clockStarted(crew, port);
        until("the frame is taken", () -> frames(clockStarted(crew, port)) == 1);
        lookstep.kill();
        assertThat(next.locator("trouble-strip")).containsText("No connection");
        long packets = lights.snapshot().packets();
        lookstep =
                Lookstep.start(
                        dir,
                        "shoot",
                        plan.toString(),
                        "--line",
                        nodes.near().toString(),
                        "--frames",
                        frames.toString(),
                        "--http",
                        "127.0.0.1:" + port);
        until("packets come again", () -> lights.snapshot().packets() > packets + 3);
        assertEquals(0x4000, warm(), 66);
        lookstep.link(0);
        JsonNode after = clockStarted(crew, port);
        double passed =
                (after.path("clock").path("atEpochMillis").asLong()
                                - before.path("clock").path("atEpochMillis").asLong())
                        / 1000.0;
        assertEquals("running", after.path("clock").path("state").asText());
        assertEquals(
                before.path("clock").path("leftSeconds").asDouble() - passed,
                after.path("clock").path("leftSeconds").asDouble(),
                0.01,
                "the clock went on by the wall");
        assertEquals(1, frames(after), "no frame is lost, none is taken twice");
        // The page that was open finds back by itself, and its key works.
        assertThat(next.locator("trouble-strip")).not().containsText("No connection");
        assertThat(next.locator("now-shot .name")).hasText("Warm");
        press(next, "Enter");
        assertThat(next.locator("now-shot .name")).hasText("Cold");
        untilLevels("the third look is on", 0, 0xffff);
        assertTrue(
                lookstep.printed().contains("Going on at shot 2 of 3: Warm"), lookstep.printed());
    }

    @Test
    void theAdapterIsPulledAndPutBack() throws IOException {
        BrowserContext crew = chromium.newContext();
        Page next = open(crew, lookstep.link(0));
        untilLevels("the work light is on", 0x1999, 0);
        nodes.unplug();
        assertThat(next.locator("trouble-strip")).containsText("line is down");
        // Nobody waits for the cable: the shoot goes on, and the light catches up.
        press(next, "Enter");
        assertThat(next.locator("now-shot .name")).hasText("Matched");
        press(next, "Enter");
        assertThat(next.locator("now-shot .name")).hasText("Warm");
        nodes.replug();
        untilLevels("the second look is on", 0x4000, 0);
        assertThat(next.locator("trouble-strip")).not().containsText("line is down");
    }

    @Test
    void stoppedInOrderItEndsWithItsDataTheWorkLightAndItsExitCode() throws Exception {
        BrowserContext crew = chromium.newContext();
        Page next = open(crew, lookstep.link(0));
        press(next, "Enter");
        untilLevels("the first look is on", 0x8000, 0);
        // 143: ended by SIGTERM, as every Java program reports it.
        assertEquals(143, lookstep.stop());
        untilLevels("people find the work light", 0x1999, 0);
        assertTrue(Files.exists(dir.resolve("wall.shoot-journal").resolve("journal")));
    }

    private static void light(BrowserContext crew, String origin, String press) {
        APIResponse answer =
                crew.request()
                        .post(
                                origin + "/light",
                                RequestOptions.create()
                                        .setHeader("X-Lookstep", "1")
                                        .setData(press.replace('\'', '"')));
        assertEquals(200, answer.status(), answer.text());
    }

    @Test
    void aNudgeIsThereAtOnceAndAfterAKillAndGoesBackByUndo() throws Exception {
        BrowserContext crew = chromium.newContext();
        Page next = open(crew, lookstep.link(0));
        String origin = lookstep.link(0).replaceAll("/open/.*", "");
        press(next, "Enter");
        untilLevels("the first look is on", 0x8000, 0);
        light(crew, origin, "{'at':1,'do':'darker','light':'key'}");
        // 0.5 x 2^(-1/3) x 65535 = 26008
        untilLevels("a third of a stop down", 26008, 0);
        lookstep.kill();
        lookstep = shoot();
        lookstep.link(0);
        untilLevels("it holds after a kill", 26008, 0);
        String again = lookstep.link(0).replaceAll("/open/.*", "");
        open(crew, lookstep.link(0).replace("/next", "/set"), "now-shot .name");
        light(crew, again, "{'at':1,'do':'undo'}");
        untilLevels("and is taken back", 0x8000, 0);
    }

    @Test
    void theSameLookGoesOutOnTheLineAndOverTheNetworkAndTheStreamIsEnded() throws Exception {
        assertEquals(143, lookstep.stop());
        Light key = read.rig().get(0);
        SacnListener network =
                new SacnListener(
                        Map.of(
                                1,
                                List.of(
                                        new PatchedLight(
                                                key.name(),
                                                key.fixture(),
                                                key.mode(),
                                                key.startSlot()))));
        SacnFarEnd end = SacnFarEnd.unicast(InetAddress.getLoopbackAddress(), 0, network);
        LoopThread loop =
                LoopThread.start(
                        "network's far end",
                        now -> {
                            end.doWork(now);
                            return now + 700_000;
                        });
        try (end) {
            lookstep =
                    Lookstep.start(
                            dir,
                            "shoot",
                            plan.toString(),
                            "--line",
                            nodes.near().toString(),
                            "--network",
                            "lo",
                            "--to",
                            "127.0.0.1:" + end.address().getPort(),
                            "--frames",
                            frames.toString(),
                            "--http",
                            "127.0.0.1:0");
            Page next = open(chromium.newContext(), lookstep.link(0));
            press(next, "Enter");
            untilLevels("the first look is on the line", 0x8000, 0);
            until(
                    "the first look is on the network",
                    () -> Arrays.equals(lights.lastSlots(), network.lastSlots(1)));
            assertEquals(0x80, lights.lastSlots()[100] & 0xff);
            lookstep.stop();
            until("the stream is ended", () -> network.dataLost(System.nanoTime()));
            assertEquals(0x19, network.lastSlots(1)[100] & 0xff, "at the work light");
            assertEquals(List.of(), network.troubles());
        } finally {
            loop.close();
        }
    }
}
