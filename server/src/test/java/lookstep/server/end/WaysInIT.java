package lookstep.server.end;

import static lookstep.server.end.Lookstep.until;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.net.CookieManager;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.locks.LockSupport;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.imageio.ImageIO;
import lookstep.protocols.image.ExifData;
import lookstep.protocols.image.ExifWriter;
import lookstep.protocols.ptpip.DeviceProperty;
import lookstep.simulator.gear.CameraFile;
import lookstep.simulator.gear.Fault;
import lookstep.simulator.gear.FtpUploader;
import lookstep.simulator.gear.PtpIpCamera;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Pictures that come in over FTP and PTP/IP at once, into {@code lookstep shoot} as a process of
 * its own, whose cameras' clocks are hours off; each copied to a second place.
 */
class WaysInIT {
    private static final JsonMapper JSON = JsonMapper.builder().build();
    private static final Pattern PASSWORD = Pattern.compile("user body-two +password (\\S+)");

    /** Seven hours ahead, as after a flight. */
    private static final long CAMERA_AHEAD_HOURS = 7;

    @TempDir Path dir;

    private final Random grain = new Random(5);
    private final AtomicInteger released = new AtomicInteger();
    private final HttpClient crew =
            HttpClient.newBuilder().cookieHandler(new CookieManager()).build();
    private Path plan;
    private Path second;
    private int ftpPort;
    private PtpIpCamera camera;
    private int cameraPort;
    private Lookstep lookstep;

    @BeforeEach
    void putUp() throws IOException {
        plan = dir.resolve("wall.shoot.yaml");
        try (InputStream in = WaysInIT.class.getResourceAsStream("/lookstep/end/wall.shoot.yaml")) {
            Files.copy(in, plan);
        }
        second = Files.createDirectory(dir.resolve("second"));
        ftpPort = freePort();
        camera =
                new PtpIpCamera(
                        PtpIpCamera.Offers.ALL,
                        Clock.system(ZoneId.systemDefault()),
                        released::incrementAndGet);
        cameraPort = camera.start(0).getPort();
        camera.put("OLD_0001.JPG", picture()); // of another shoot
        lookstep = shoot();
    }

    @AfterEach
    void takeDown() {
        lookstep.close();
        camera.close();
    }

    private static int freePort() throws IOException {
        try (ServerSocket any = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            return any.getLocalPort();
        }
    }

    private Lookstep shoot() throws IOException {
        return Lookstep.start(
                dir,
                "shoot",
                plan.toString(),
                "--network",
                "lo",
                "--to",
                "127.0.0.1:" + freePort(),
                "--ftp",
                "--ftp-port",
                String.valueOf(ftpPort),
                "--ftp-camera",
                "body-two",
                "--camera",
                "127.0.0.1:" + cameraPort,
                "--copy-to",
                second.toString(),
                "--http",
                "127.0.0.1:0");
    }

    private byte[] picture() {
        BufferedImage image = new BufferedImage(320, 240, BufferedImage.TYPE_INT_RGB);
        for (int i = 0; i < 320 * 240; i++) {
            image.setRGB(i % 320, i / 320, 0x404040 + grain.nextInt(0x20) * 0x010101);
        }
        try {
            ByteArrayOutputStream out = new ByteArrayOutputStream();
            ImageIO.write(image, "jpeg", out);
            return ExifWriter.insert(
                    out.toByteArray(),
                    ExifData.builder()
                            .bodyModel("a body")
                            .fNumber(4)
                            .takenAt(
                                    LocalDateTime.now(ZoneId.systemDefault())
                                            .plusHours(CAMERA_AHEAD_HOURS))
                            .build());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private void press(PtpIpCamera on) {
        on.send(List.of(new CameraFile("JPG", picture())));
    }

    private FtpUploader uploader() {
        until("the password is printed", () -> PASSWORD.matcher(lookstep.printed()).find());
        Matcher word = PASSWORD.matcher(lookstep.printed());
        assertTrue(word.find());
        return new FtpUploader(
                new FtpUploader.Setup(
                        "127.0.0.1",
                        ftpPort,
                        "body-two",
                        word.group(1),
                        FtpUploader.Data.PASSIVE,
                        FtpUploader.Privacy.PLAIN,
                        FtpUploader.Delivery.STRAIGHT),
                1,
                LockSupport::parkNanos);
    }

    /** The crew's message; what is asked for changes nothing. */
    private JsonNode state() {
        return post("/show", "{\"show\":\"all\"}");
    }

    private JsonNode post(String path, String body) {
        try {
            String link = lookstep.link(0);
            String at = link.replaceAll("/open/.*", "");
            crew.send(
                    HttpRequest.newBuilder(URI.create(link)).build(),
                    HttpResponse.BodyHandlers.discarding());
            return JSON.readTree(
                    crew.send(
                                    HttpRequest.newBuilder(URI.create(at + path))
                                            .header("X-Lookstep", "1")
                                            .POST(HttpRequest.BodyPublishers.ofString(body))
                                            .build(),
                                    HttpResponse.BodyHandlers.ofString())
                            .body());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(e);
        }
    }

    private void step(int at) {
        assertEquals(at + 1, post("/step", "{\"at\":" + at + "}").at("/position/at").asInt());
    }

    /** Shots of all frames, the newest first. */
    private List<String> shots() {
        List<String> shots = new ArrayList<>();
        state().path("frames").forEach(f -> shots.add(f.path("shot").asText()));
        return shots;
    }

    private void untilFrames(int count) {
        until("there are " + count + " frames", () -> shots().size() == count, () -> "" + state());
    }

    private void untilCameraIs(String state) {
        until(
                "the camera is " + state,
                () -> {
                    for (JsonNode link : state().path("links")) {
                        if (link.path("name").asText().startsWith("camera 127.0.0.1")) {
                            return link.path("state").asText().equals(state);
                        }
                    }
                    return false;
                },
                () -> state().path("links").toString());
    }

    @Test
    void camerasUploadAndAreFetchedFromAndOneKeySetsCameraAndLight() throws IOException {
        untilCameraIs("up");
        assertEquals(List.of(), shots());
        step(0);
        // what the plan's look wants: f/4, 1/50 s, ISO 1600; the standard counts in hundredths of
        // a stop number and in ten-thousandths of a second (ISO 15740)
        until("the f-number is set", () -> camera.dial(DeviceProperty.F_NUMBER) == 400);
        until("the time is set", () -> camera.dial(DeviceProperty.EXPOSURE_TIME) == 200);
        until("the ISO is set", () -> camera.dial(DeviceProperty.EXPOSURE_INDEX) == 1600);
        until(
                "the colour temperature is to be set by hand",
                () -> state().path("byHand").toString().contains("2700 K"));

        try (FtpUploader bodyTwo = uploader()) {
            press(camera);
            bodyTwo.send(List.of(new CameraFile("JPG", picture())));
            untilFrames(2);
            step(1);
            camera.misbehave(new Fault.HalfFile(0.5)); // the Wi-Fi fails in the middle
            press(camera);
            bodyTwo.send(List.of(new CameraFile("JPG", picture())));
            untilFrames(4);
        }
        post("/shutter", "{}");
        until("the shutter is released", () -> released.get() == 1);
        until(
                "all are copied",
                () -> {
                    for (JsonNode frame : state().path("frames")) {
                        if (!frame.path("safe").asBoolean()) {
                            return false;
                        }
                    }
                    return true;
                });
        assertEquals(4, files(second).size(), files(second).toString());
        JsonNode clocks = state().path("cameras");
        assertEquals(2, clocks.size(), clocks.toString());
        assertTrue(
                clocks.get(0).path("says").asText().matches("its clock is (7 h 0|6 h 59) min.*"),
                clocks.toString());
    }

    @Test
    void whatIsTakenWhileTheProgramIsDeadIsFetchedAndNothingTwice() throws IOException {
        untilCameraIs("up");
        step(0);
        press(camera);
        untilFrames(1);
        lookstep.kill();
        press(camera);
        lookstep = shoot();
        untilFrames(2);
        untilCameraIs("up");
        press(camera);
        untilFrames(3);
        assertEquals(3, files(dir.resolve("wall.shoot-journal").resolve("frames")).size());
    }

    @Test
    void aCameraThatIsSwitchedOffIsToldAndFetchedFromWhenItIsBack() throws IOException {
        untilCameraIs("up");
        step(0);
        camera.close();
        untilCameraIs("down");
        press(camera);
        camera.start(cameraPort);
        untilFrames(1);
        untilCameraIs("up");
    }

    private static List<Path> files(Path below) throws IOException {
        try (var all = Files.walk(below)) {
            return all.filter(Files::isRegularFile)
                    .filter(f -> !f.getFileName().toString().startsWith("."))
                    .toList();
        }
    }
}
