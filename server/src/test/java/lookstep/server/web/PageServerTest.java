package lookstep.server.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.net.CookieManager;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.WebSocket;
import java.net.http.WebSocketHandshakeException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CompletionException;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import lookstep.server.TestPlans;
import lookstep.server.frames.PreviewResult;
import lookstep.server.intake.FramePictures;
import lookstep.server.lighting.Lightings;
import lookstep.server.live.Event.FileMark;
import lookstep.server.live.Frame;
import lookstep.server.live.Journal;
import lookstep.server.live.Links;
import lookstep.server.live.Live;
import lookstep.server.live.NotPossible;
import lookstep.server.live.ShotFacts;
import lookstep.server.live.Showing;
import lookstep.server.order.Variety;
import lookstep.server.pictured.LookPictures;
import lookstep.server.plan.Look;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plates.PlatesNow;
import lookstep.server.prediction.Predictions;
import lookstep.server.tryout.TryOuts;
import lookstep.server.window.ShotItems;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Who may do what, over real sockets. */
class PageServerTest {
    private static final Keys KEYS = new Keys("crewcrewcrewcrewcrew", "bandband", "lookstep-test");

    @TempDir Path dir;

    private final ShootPlan plan = TestPlans.threeShots();
    private final Lightings lightings = new Lightings(plan);
    private FramePictures frames;
    private Journal journal;
    private Live live;
    private PageServer server;

    /** Nothing is edited in these tests. */
    private static final PlanDesk desk =
            new PlanDesk() {
                @Override
                public PlanPart standing() {
                    return PlanPart.FIRST;
                }

                @Override
                public ChecksPart checks() {
                    return ChecksPart.NONE;
                }

                @Override
                public Variety variety(ShootPlan of) {
                    return Variety.of(ShotItems.of(of));
                }

                @Override
                public Path folder() {
                    return Path.of(".");
                }

                @Override
                public Object document() {
                    return Map.of("file", "some.shoot.yaml");
                }

                @Override
                public void edit(JsonNode body) throws NotPossible {
                    throw new NotPossible("not here");
                }

                @Override
                public void put(Look look, Shot base, String says) throws NotPossible {
                    throw new NotPossible("not here");
                }

                @Override
                public void mend(String finding) throws NotPossible {
                    throw new NotPossible("not here");
                }
            };

    private static final class NoListener implements FramePictures.Listener {
        @Override
        public void made(int number, PreviewResult.Preview preview) {}

        @Override
        public void failed(int number, PreviewResult.FrameProblem problem) {}
    }

    @BeforeEach
    void serve() throws IOException {
        journal = Journal.open(dir.resolve("journal"));
        live = new Live(journal, plan.shots().stream().map(Shot::id).toList(), "", () -> 0);
        frames =
                new FramePictures(
                        dir,
                        new FramePictures.Makers(
                                original -> new PreviewResult.Preview(new byte[8 << 20], 1, 1),
                                original -> Optional.empty()),
                        () -> {},
                        new NoListener());
        server =
                PageServer.start(
                        new PageServer.About(
                                live,
                                new Links(() -> {}),
                                frames,
                                Map::of,
                                List::of,
                                new LookPictures(new Predictions(), (p, l) -> Optional.empty()),
                                new TryOuts(p -> Optional.empty()),
                                desk,
                                lightings,
                                Map.of(1, List.of("a line")),
                                new Messages(
                                        lightings,
                                        new FrameParts(ZoneOffset.UTC, false),
                                        true,
                                        lighting -> List.of(),
                                        ZoneOffset.UTC),
                                () -> PlatesNow.NONE,
                                Optional.empty(),
                                KEYS,
                                () -> 0),
                        "127.0.0.1",
                        0);
    }

    @AfterEach
    void stop() {
        server.close();
        frames.close();
        journal.close();
    }

    private URI at(String path) {
        return URI.create("http://127.0.0.1:" + server.port() + path);
    }

    private HttpRequest.Builder with(String key, String path) {
        HttpRequest.Builder request = HttpRequest.newBuilder(at(path));
        return key.isEmpty() ? request : request.header("Cookie", KEYS.cookie() + "=" + key);
    }

    private static HttpResponse<String> send(HttpRequest.Builder request) throws Exception {
        return HttpClient.newHttpClient()
                .send(request.build(), HttpResponse.BodyHandlers.ofString());
    }

    private HttpRequest.Builder post(String key, String path, String body) {
        return with(key, path)
                .header("X-Lookstep", "1")
                .POST(HttpRequest.BodyPublishers.ofString(body));
    }

    @ParameterizedTest
    @CsvSource({
        "/band, 403, 200, 200",
        "/next, 403, 403, 200",
        "/set, 403, 403, 200",
        "/frames/1.jpg, 403, 404, 404",
        "/thumbs/1.jpg, 403, 403, 404",
        "/originals/1.jpg, 403, 403, 404",
        "/all-frames, 403, 403, 200",
        "/prediction/nothing.jpg, 403, 403, 404",
        "/rig, 403, 403, 200",
        "/push/band, 403, 404, 404",
        "/push/crew, 403, 403, 404",
        "/samples/crew.json, 404, 404, 404",
        "/pages/next/next.js, 200, 200, 200",
        "/pages/..%2fsamples/crew.json, 404, 404, 404",
        "/pages/%2e%2e/%2e%2e/simplelogger.properties, 404, 404, 404",
        "/open/wrongkey, 403, 403, 403"
    })
    void aKeyOpensItsOwnPagesAndNoOthers(String path, int none, int band, int crew)
            throws Exception {
        assertEquals(none, send(with("", path)).statusCode());
        assertEquals(403, send(with("guess", "/next")).statusCode());
        int bandGot = send(with(KEYS.band(), path)).statusCode();
        int crewGot = send(with(KEYS.crew(), path)).statusCode();
        if (path.startsWith("/push/")) {
            // A plain GET tells the page whether its key is good; without an upgrade there is
            // nothing to hear.
            assertEquals(band == 403, bandGot == 403, "band " + bandGot);
            assertFalse(crewGot == 403, "crew " + crewGot);
        } else {
            assertEquals(band, bandGot);
            assertEquals(crew, crewGot);
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "/step",
                "/back",
                "/jump",
                "/again",
                "/light",
                "/test",
                "/flashing",
                "/frame",
                "/show",
                "/clock",
                "/shutter"
            })
    void nobodyButTheCrewsOwnPagePresses(String path) throws Exception {
        String body = "{\"at\":0,\"do\":\"start\"}";
        assertEquals(403, send(post("", path, body)).statusCode());
        assertEquals(403, send(post(KEYS.band(), path, body)).statusCode());
        assertEquals(
                403,
                send(post(KEYS.crew(), path, body).header("Origin", "http://elsewhere.example"))
                        .statusCode());
        assertEquals(
                403, send(post(KEYS.crew(), path, body).header("Origin", "null")).statusCode());
        assertEquals(
                403,
                send(with(KEYS.crew(), path).POST(HttpRequest.BodyPublishers.ofString(body)))
                        .statusCode(),
                "without the mark of our own pages");
        assertEquals(0, live.state().position());
        assertTrue(live.state().clock().fresh());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "/jump  | {'at':1,'to':3}                                | 'position':{'at':3,",
                "/again | {'at':1}                                       | 'take':2,",
                "/light | {'at':1,'do':'darker','light':'key'}           | 'changes':['key 1/3 stop down']",
                "/light | {'at':1,'do':'colder','light':'fill'}          | 'changes':['fill 10 mired colder']",
                "/light | {'at':1,'do':'off','light':'rim left'}         | 'changes':['rim left off']",
                "/light | {'at':1,'do':'on','light':'top'}               | 'changes':['top on']",
                "/light | {'at':1,'do':'swap'}                           | 'changes':['left and right swapped']",
                "/light | {'at':1,'do':'steady','kelvin':5600}           | 'cameraStays':true",
                "/test  | {'at':1,'do':'light','light':'fill'}           | 'what':'test'",
                "/test  | {'at':1,'do':'slot','universe':1,'slot':12}    | 'expect':'cool, full'",
                "/test  | {'at':1,'do':'next'}                           | 'says':'test: key alone'",
                "/test  | {'at':1,'do':'previous'}                       | 'slot':34,"
            })
    void whatTheCrewPressesHappens(String path, String body, String then) throws Exception {
        live.step(0);
        HttpResponse<String> answer = send(post(KEYS.crew(), path, body.replace('\'', '"')));
        assertEquals(200, answer.statusCode(), answer.body());
        assertTrue(answer.body().contains(then.replace('\'', '"')), answer.body());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "/jump     | {'at':1}                                   | 400 | say where to",
                "/again    | {}                                         | 400 | position.at",
                "/light    | {'at':1,'do':'explode','light':'key'}      | 400 | no press",
                "/light    | {'at':1,'do':'off','light':'nobody'}       | 400 | no press",
                "/light    | {'at':1,'do':'steady','kelvin':0}          | 400 | no press",
                "/light    | {'at':1,'do':'brighter','light':'key'}     | 422 | at its most",
                "/light    | {'at':1,'do':'keep'}                       | 422 | nothing is changed",
                "/light    | {'at':1,'do':'undo'}                       | 422 | nothing to take back",
                "/test     | {'at':1,'do':'slot','universe':1,'slot':0} | 422 | slots from 1 to 512",
                "/test     | {'at':1,'do':'end'}                        | 422 | nothing is being tested",
                "/flashing | {'at':1}                                   | 400 | no press",
                "/flashing | {'at':1,'acknowledged':true}               | 422 | flashing: allowed"
            })
    void whatCannotBeDoneIsSaidAndChangesNothing(String path, String body, int status, String says)
            throws Exception {
        live.step(0);
        long before = live.state().revision();
        HttpResponse<String> answer = send(post(KEYS.crew(), path, body.replace('\'', '"')));
        assertEquals(status, answer.statusCode(), answer.body());
        assertTrue(answer.body().contains(says), answer.body());
        assertEquals(before, live.state().revision());
    }

    @Test
    void aPressOnTheLightFromAnotherPositionChangesNothing() throws Exception {
        live.step(0);
        live.step(1);
        long before = live.state().revision();
        HttpResponse<String> answer =
                send(post(KEYS.crew(), "/light", "{\"at\":1,\"do\":\"swap\"}"));
        assertEquals(200, answer.statusCode());
        assertEquals(before, live.state().revision());
    }

    @Test
    void aPressIsAnsweredByTheStateItMadeAndAnOldOneChangesNothing() throws Exception {
        HttpResponse<String> one = send(post(KEYS.crew(), "/step", "{\"at\":0}"));
        assertEquals(200, one.statusCode());
        assertTrue(one.body().contains("\"position\":{\"at\":1,"), one.body());
        HttpResponse<String> again = send(post(KEYS.crew(), "/step", "{\"at\":0}"));
        assertEquals(200, again.statusCode());
        assertTrue(again.body().contains("\"position\":{\"at\":1,"), again.body());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "{",
                "[]",
                "null",
                "{\"at\":\"1\"}",
                "{\"at\":1.5}",
                "{\"at\":99999999999}"
            })
    void whatIsNoPressIsAnsweredByItsMend(String body) throws Exception {
        HttpResponse<String> answer = send(post(KEYS.crew(), "/step", body));
        assertEquals(400, answer.statusCode());
        assertTrue(answer.body().contains("position.at"), answer.body());
        assertEquals(0, live.state().position());
    }

    @Test
    void aLargeBodyIsTurnedAway() throws Exception {
        int status;
        try {
            status = send(post(KEYS.crew(), "/step", "x".repeat(1 << 20))).statusCode();
        } catch (IOException cutOff) {
            status = 413;
        }
        assertTrue(status >= 400, "status " + status);
        assertEquals(0, live.state().position());
    }

    @Test
    void theBandsLinkInTheCrewsBrowserTakesNothingAway() throws Exception {
        HttpClient browser =
                HttpClient.newBuilder()
                        .cookieHandler(new CookieManager())
                        .followRedirects(HttpClient.Redirect.NORMAL)
                        .build();
        for (String path : List.of("/open/" + KEYS.crew(), "/open/" + KEYS.band(), "/next")) {
            assertEquals(
                    200,
                    browser.send(
                                    HttpRequest.newBuilder(at(path)).build(),
                                    HttpResponse.BodyHandlers.discarding())
                            .statusCode(),
                    path);
        }
    }

    private void arrive(String name) throws IOException {
        live.frameTaken(
                new Live.Arrival(new FileMark(name, 1, 1), "", "", "", 0),
                shot -> new ShotFacts("its look", List.of("Ines"), ""));
        frames.show(live.state().newestFrame().orElseThrow());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "/frame | {'number':1,'do':'keep'}                          | 'inTheBag':true",
                "/frame | {'number':1,'do':'out'}                           | 'mark':'out'",
                "/frame | {'number':1,'do':'belongs','shot':'rim-only'}     | 'shot':'rim-only','byHand':true",
                "/frame | {'number':1,'do':'belongs','shot':''}             | 'shot':null,'byHand':true",
                "/show  | {'show':'kept'}                                   | 'showing':'kept','frame':0",
                "/show  | {'show':'hold'}                                   | 'showing':'hold','frame':1",
            })
    void whatIsDoneWithAFrameHappens(String path, String body, String then) throws Exception {
        live.step(0);
        arrive("original.jpg");
        frames.picture(1);
        while (!frames.has(1)) {
            Thread.onSpinWait();
        }
        HttpResponse<String> answer = send(post(KEYS.crew(), path, body.replace('\'', '"')));
        assertEquals(200, answer.statusCode(), answer.body());
        assertTrue(answer.body().contains(then.replace('\'', '"')), answer.body());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "/frame | {'number':2,'do':'keep'}                       | 422 | no frame 2",
                "/frame | {'number':1,'do':'belongs','shot':'nowhere'}   | 422 | no shot",
                "/frame | {'number':1,'do':'burn'}                       | 400 | no press",
                "/frame | {'do':'keep'}                                  | 400 | no press",
                "/show  | {'show':'everything'}                          | 400 | no press",
            })
    void whatCannotBeDoneWithAFrameIsSaid(String path, String body, int status, String says)
            throws Exception {
        live.step(0);
        arrive("original.jpg");
        long before = live.state().revision();
        HttpResponse<String> answer = send(post(KEYS.crew(), path, body.replace('\'', '"')));
        assertEquals(status, answer.statusCode(), answer.body());
        assertTrue(answer.body().contains(says), answer.body());
        assertEquals(before, live.state().revision());
    }

    /** Numbers can be counted through by anybody on the Wi-Fi who has the band's link. */
    @Test
    void theBandGetsNoFrameThatItIsNotShown() throws Exception {
        arrive("one.jpg");
        arrive("two.jpg");
        assertEquals(200, send(with(KEYS.band(), "/frames/2.jpg")).statusCode());
        live.mark(1, Frame.Mark.KEPT);
        live.show(Showing.Mode.KEPT, 0);
        assertEquals(200, send(with(KEYS.band(), "/frames/1.jpg")).statusCode());
        assertEquals(404, send(with(KEYS.band(), "/frames/2.jpg")).statusCode());
        assertEquals(200, send(with(KEYS.crew(), "/frames/2.jpg")).statusCode());
        live.show(Showing.Mode.HOLD, 2);
        assertEquals(404, send(with(KEYS.band(), "/frames/1.jpg")).statusCode());
        assertEquals(200, send(with(KEYS.band(), "/frames/2.jpg")).statusCode());
        assertEquals(404, send(with(KEYS.band(), "/frames/3.jpg")).statusCode());
    }

    @Test
    void aPictureThatComesAheadOfItsFileIsShownUntilTheFileIsThere() throws Exception {
        frames.early(dir.resolve("cam/LS_0001.JPG"), new PreviewResult.Preview(new byte[77], 1, 1));
        String own = "http://127.0.0.1:" + server.port();
        BlockingQueue<String> band = listen(KEYS.band(), "/push/band", own);
        String heard = band.poll(30, TimeUnit.SECONDS);
        assertTrue(heard.contains("\"number\":0,\"url\":\"/frames/early-1.jpg\""), heard);
        assertEquals(77, send(with(KEYS.band(), "/frames/early-1.jpg")).body().length());
        assertEquals(404, send(with(KEYS.band(), "/frames/early-2.jpg")).statusCode());
        arrive("cam/LS_0001.JPG");
        assertTrue(frames.early().isEmpty());
    }

    @ParameterizedTest
    @ValueSource(strings = {"w=abc", "h=99999999999", "x=abc", "y=1e", "w="})
    void aPartThatIsNoneIsABadRequest(String query) throws Exception {
        Files.write(dir.resolve("original.jpg"), new byte[] {1});
        arrive("original.jpg");
        int status = send(with(KEYS.crew(), "/originals/1.jpg?" + query)).statusCode();
        // the file is no picture: whichever is seen first, it is no fault of the program
        assertTrue(status == 400 || status == 404, query + ": " + status);
    }

    @Test
    void theBandGetsNoEarlyPictureWhileItSeesOnlyWhatIsKept() throws Exception {
        frames.early(dir.resolve("cam/LS_0001.JPG"), new PreviewResult.Preview(new byte[7], 1, 1));
        live.show(Showing.Mode.KEPT, 0);
        assertEquals(404, send(with(KEYS.band(), "/frames/early-1.jpg")).statusCode());
        assertEquals(200, send(with(KEYS.crew(), "/frames/early-1.jpg")).statusCode());
    }

    private BlockingQueue<String> listen(String key, String path, String origin) {
        BlockingQueue<String> heard = new LinkedBlockingQueue<>();
        HttpClient.newHttpClient()
                .newWebSocketBuilder()
                .header("Cookie", KEYS.cookie() + "=" + key)
                .header("Origin", origin)
                .buildAsync(
                        URI.create("ws://127.0.0.1:" + server.port() + path),
                        new WebSocket.Listener() {
                            private final StringBuilder text = new StringBuilder();

                            @Override
                            public CompletionStage<?> onText(
                                    WebSocket socket, CharSequence data, boolean whole) {
                                text.append(data);
                                if (whole) {
                                    heard.add(text.toString());
                                    text.setLength(0);
                                }
                                socket.request(1);
                                return null;
                            }
                        })
                .join();
        return heard;
    }

    @Test
    void thePushBringsTheNewestAndTheBandHearsNothingOfThePlan() throws Exception {
        String own = "http://127.0.0.1:" + server.port();
        BlockingQueue<String> crew = listen(KEYS.crew(), "/push/crew", own);
        BlockingQueue<String> band = listen(KEYS.band(), "/push/band", own);
        assertEquals(
                "{\"kind\":\"band\",\"simulated\":true,\"title\":\"The Tin Meridians at the Brine Loft\",\"frame\":null}",
                band.poll(30, TimeUnit.SECONDS));
        live.step(0);
        server.changed();
        String heard = crew.poll(30, TimeUnit.SECONDS);
        while (heard != null && !heard.contains("\"current\":\"safe\"")) {
            heard = crew.poll(30, TimeUnit.SECONDS);
        }
        assertTrue(heard != null, "the step is pushed");
        server.alive();
        String alive = band.poll(30, TimeUnit.SECONDS);
        while (alive != null && !alive.equals(Push.ALIVE)) {
            alive = band.poll(30, TimeUnit.SECONDS);
        }
        assertEquals(Push.ALIVE, alive);
    }

    @ParameterizedTest
    @CsvSource({
        "bandband, /push/crew, own",
        "crewcrewcrewcrewcrew, /push/crew, http://elsewhere.example",
        "nobody, /push/band, own"
    })
    void aPushIsForThoseWhoMayHearIt(String key, String path, String origin) {
        String from = origin.equals("own") ? "http://127.0.0.1:" + server.port() : origin;
        CompletionException refused =
                org.junit.jupiter.api.Assertions.assertThrows(
                        CompletionException.class, () -> listen(key, path, from));
        assertEquals(
                403, ((WebSocketHandshakeException) refused.getCause()).getResponse().statusCode());
    }

    /** Tablets that walked off in the middle of a picture, or somebody who means it. */
    @Test
    void readersThatNeverReadDoNotHoldUpAPress() throws Exception {
        live.frameTaken(
                new Live.Arrival(new FileMark("original.jpg", 1, 1), "", "", "", 0),
                shot -> ShotFacts.NONE);
        frames.show(live.state().newestFrame().orElseThrow());
        List<Socket> stuck = new ArrayList<>();
        try {
            for (int i = 0; i < 24; i++) {
                Socket socket = new Socket();
                socket.setReceiveBufferSize(2048);
                socket.setSoTimeout(20_000);
                socket.connect(
                        new InetSocketAddress(InetAddress.getLoopbackAddress(), server.port()));
                String ask =
                        "GET /frames/1.jpg HTTP/1.1\r\nHost: x\r\nCookie: "
                                + KEYS.cookie()
                                + "="
                                + KEYS.band()
                                + "\r\n\r\n";
                socket.getOutputStream().write(ask.repeat(4).getBytes(StandardCharsets.US_ASCII));
                socket.getOutputStream().flush();
                assertEquals('H', socket.getInputStream().read(), "the picture has begun");
                stuck.add(socket);
            }
            HttpResponse<String> press =
                    send(post(KEYS.crew(), "/step", "{\"at\":0}").timeout(Duration.ofSeconds(30)));
            assertEquals(200, press.statusCode());
            assertEquals(
                    200,
                    send(with(KEYS.band(), "/band").timeout(Duration.ofSeconds(30))).statusCode());
        } finally {
            for (Socket socket : stuck) {
                socket.close();
            }
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"a=\u00ff", "\"", "=;=;=", "lookstep-test", "lookstep-test=\u00ff\u00fe"})
    void aCookieThatIsNoneIsNoKey(String cookie) throws Exception {
        try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), server.port())) {
            String ask =
                    "GET /next HTTP/1.1\r\nHost: x\r\nConnection: close\r\nCookie: "
                            + cookie
                            + "\r\n\r\n";
            socket.getOutputStream().write(ask.getBytes(StandardCharsets.ISO_8859_1));
            String answer =
                    new String(socket.getInputStream().readAllBytes(), StandardCharsets.ISO_8859_1);
            assertTrue(answer.startsWith("HTTP/1.1 403 "), answer);
        }
    }
}
