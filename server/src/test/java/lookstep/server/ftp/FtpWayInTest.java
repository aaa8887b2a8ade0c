package lookstep.server.ftp;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import lookstep.server.Program;
import lookstep.server.disk.Disk;
import lookstep.server.disk.SmallDisk;
import lookstep.simulator.gear.CameraFile;
import lookstep.simulator.gear.Fault;
import lookstep.simulator.gear.FtpUploader;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Over real sockets of this machine, with the client of Commons Net as the camera. */
@Timeout(120)
class FtpWayInTest {
    private static final FtpSetup SETUP =
            new FtpSetup(
                    0,
                    0,
                    0,
                    Optional.empty(),
                    false,
                    Duration.ofMinutes(1),
                    Duration.ofMinutes(1),
                    Duration.ofMillis(1));
    private static final List<FtpCamera> CAMERAS =
            List.of(new FtpCamera("ines-body", "one two"), new FtpCamera("b-body", "three"));
    private static final Clock CLOCK =
            Clock.fixed(Instant.parse("2031-05-02T20:04:05Z"), ZoneOffset.ofHours(1));

    @TempDir Path folder;
    @TempDir static Path keys;
    private Shoot shoot;
    private FtpWayIn way;
    private AutoCloseable running;

    @BeforeEach
    void start() throws Exception {
        shoot = new Shoot(folder);
        run(SETUP, Disk.REAL);
    }

    @AfterEach
    void stop() throws Exception {
        running.close();
    }

    private void run(FtpSetup setup, Disk disk) throws Exception {
        if (running != null) {
            running.close();
        }
        way = new FtpWayIn(setup, CAMERAS, CLOCK, disk);
        running = way.start(shoot);
    }

    private static FtpSetup withTls(boolean required) {
        return new FtpSetup(
                0,
                0,
                0,
                Optional.of(keys),
                required,
                SETUP.idle(),
                SETUP.dataIdle(),
                SETUP.loginPause());
    }

    private FtpUploader camera(
            int which,
            FtpUploader.Data data,
            FtpUploader.Privacy privacy,
            FtpUploader.Delivery delivery) {
        FtpCamera camera = CAMERAS.get(which);
        return new FtpUploader(
                new FtpUploader.Setup(
                        "127.0.0.1",
                        way.port(),
                        camera.name(),
                        camera.password(),
                        data,
                        privacy,
                        delivery));
    }

    private FtpUploader camera() {
        return camera(
                0,
                FtpUploader.Data.PASSIVE,
                FtpUploader.Privacy.PLAIN,
                FtpUploader.Delivery.STRAIGHT);
    }

    private static byte[] bytes(int seed, int count) {
        byte[] bytes = new byte[count];
        new Random(seed).nextBytes(bytes);
        return bytes;
    }

    private static List<CameraFile> one(byte[] bytes) {
        return List.of(new CameraFile("JPG", bytes));
    }

    @ParameterizedTest
    @CsvSource({
        "PASSIVE, PLAIN, STRAIGHT",
        "PASSIVE, PLAIN, RENAMED",
        "ACTIVE, PLAIN, STRAIGHT",
        "ACTIVE, PLAIN, RENAMED",
        "PASSIVE, TLS, STRAIGHT",
        "ACTIVE, TLS, RENAMED"
    })
    void aPictureComesWholeUnderItsName(
            FtpUploader.Data data, FtpUploader.Privacy privacy, FtpUploader.Delivery delivery)
            throws Exception {
        run(withTls(privacy == FtpUploader.Privacy.TLS), Disk.REAL);
        byte[] first = bytes(1, 700_001);
        byte[] second = bytes(2, 3);
        try (FtpUploader camera = camera(0, data, privacy, delivery)) {
            assertEquals(Path.of("LS_0001.JPG"), camera.send(one(first)));
            assertEquals(Path.of("LS_0002.JPG"), camera.send(one(second)));
        }
        Path one = folder.resolve("ines-body/LS_0001.JPG");
        Path two = folder.resolve("ines-body/LS_0002.JPG");
        assertEquals(List.of(one, two), shoot.whole());
        assertArrayEquals(first, Files.readAllBytes(one));
        assertArrayEquals(second, Files.readAllBytes(two));
        assertEquals(List.of("ines-body/LS_0001.JPG", "ines-body/LS_0002.JPG"), shoot.names());
        assertTrue(shoot.up());
        assertEquals(
                "FTP on port "
                        + way.port()
                        + ": camera ines-body sent 2 files, last at 21:04:05; camera b-body has"
                        + " sent nothing yet",
                shoot.last());
    }

    /** Bytes 13 and 10 would be changed in a text; they are those of every PNG's head. */
    @Test
    void aSlowCameraIsWaitedFor() throws Exception {
        long[] waited = {0};
        byte[] bytes = bytes(1, 10_000);
        FtpUploader.Setup setup =
                new FtpUploader.Setup(
                        "127.0.0.1",
                        way.port(),
                        "b-body",
                        "three",
                        FtpUploader.Data.PASSIVE,
                        FtpUploader.Privacy.PLAIN,
                        FtpUploader.Delivery.STRAIGHT);
        try (FtpUploader camera =
                new FtpUploader(
                        setup,
                        9998,
                        nanos -> {
                            waited[0] += nanos;
                            assertEquals(List.of(), shoot.whole());
                        })) {
            camera.misbehave(new Fault.SlowWriter(1000, 7));
            assertEquals(Path.of("LS_9998.JPG"), camera.send(one(bytes)));
            assertEquals(63, waited[0]);
            camera.mend();
            camera.send(one(bytes));
            assertEquals(63, waited[0]);
            assertEquals(Path.of("LS_10000.JPG"), camera.send(one(bytes)));
        }
        assertArrayEquals(bytes, Files.readAllBytes(folder.resolve("b-body/LS_9998.JPG")));
        assertEquals(3, shoot.whole().size());
    }

    @Test
    void bytesStayAsTheyAreAlsoWhenTheCameraDidNotSayBinary() throws Exception {
        byte[] ends = {(byte) 0x89, 'P', 'N', 'G', 13, 10, 26, 10, 13, 13, 10, 10, 13};
        try (Control control = logIn(0)) {
            control.send("TYPE A", "200");
            control.store("LS_0001.JPG", ends, "226");
        }
        assertArrayEquals(ends, Files.readAllBytes(folder.resolve("ines-body/LS_0001.JPG")));
    }

    @Test
    void twoCamerasAtOnceAndBurstsOfTwentyASecondArriveWhole() throws Exception {
        int each = 40;
        ExecutorService hands = Executors.newFixedThreadPool(2);
        try {
            List<Future<?>> sending = new ArrayList<>();
            for (int which = 0; which < 2; which++) {
                int seed = which * 1000;
                FtpUploader camera =
                        camera(
                                which,
                                FtpUploader.Data.PASSIVE,
                                FtpUploader.Privacy.PLAIN,
                                FtpUploader.Delivery.STRAIGHT);
                sending.add(
                        hands.submit(
                                () -> {
                                    for (int i = 0; i < each; i++) {
                                        camera.send(one(bytes(seed + i, 300_000 + i)));
                                    }
                                    camera.close();
                                    return null;
                                }));
            }
            for (Future<?> done : sending) {
                done.get(60, TimeUnit.SECONDS);
            }
        } finally {
            hands.shutdown();
        }
        assertEquals(2 * each, shoot.whole().size());
        assertEquals(2 * each, Set.copyOf(shoot.whole()).size());
        assertEquals(2 * each, shoot.names().size());
        for (int which = 0; which < 2; which++) {
            for (int i = 0; i < each; i++) {
                Path file =
                        folder.resolve(CAMERAS.get(which).name() + "/LS_%04d.JPG".formatted(i + 1));
                assertArrayEquals(
                        bytes(which * 1000 + i, 300_000 + i),
                        Files.readAllBytes(file),
                        file.toString());
            }
        }
    }

    @Test
    void aTakenNameIsNotOverwrittenAndTheSameFileComesOnce() throws Exception {
        byte[] first = bytes(1, 5000);
        byte[] other = bytes(2, 5000);
        try (Control control = logIn(0)) {
            control.store("LS_0001.JPG", first, "226 It is here as LS_0001.JPG.");
            control.store("LS_0001.JPG", other, "226 It is here as LS_0001 (2).JPG.");
            control.store("LS_0001.JPG", other, "226 It was here already as LS_0001 (2).JPG.");
            control.store("LS_0001.JPG", first, "226 It was here already as LS_0001.JPG.");
        }
        Path one = folder.resolve("ines-body/LS_0001.JPG");
        Path two = folder.resolve("ines-body/LS_0001 (2).JPG");
        assertEquals(List.of(one, two), shoot.whole());
        assertArrayEquals(first, Files.readAllBytes(one));
        assertArrayEquals(other, Files.readAllBytes(two));
        assertEquals(2, shoot.names().size());
    }

    @ParameterizedTest
    @CsvSource({
        "../LS_0001.JPG",
        "../../LS_0001.JPG",
        "a/../../b-body/LS_0001.JPG",
        "..\\LS_0001.JPG",
        "/..",
        "..",
        "/",
        "...",
        "a/"
    })
    void waysOutOfTheFolderAreRefused(String name) throws Exception {
        try (Control control = logIn(0)) {
            control.refuseStore(name, "553");
            control.send("CWD " + name + "/..", "550");
            control.send("MKD ../x", "550");
        }
        assertEquals(List.of(), shoot.names());
        try (var beside = Files.list(folder)) {
            assertEquals(List.of(), beside.toList());
        }
    }

    @Test
    void hostileNamesBecomeHarmlessOnes() throws Exception {
        String long255 = "x".repeat(251) + ".JPG";
        try (Control control = logIn(0)) {
            control.store("/DCIM/100LOOK/LS_0001.JPG", bytes(1, 9), "226");
            control.store("C:\\temp\\LS_0002.JPG", bytes(2, 9), "226");
            control.store("a\u202Egpj.exe.JPG", bytes(3, 9), "226");
            control.store("b\u0000c\u0007.JPG", bytes(4, 9), "226");
            control.store(long255, bytes(5, 9), "226");
            control.store("nul.JPG", bytes(6, 9), "226");
            control.store("\u00e9t\u00e9 \uD83D\uDCF7.JPG", bytes(7, 9), "226");
            control.store("*?.JPG", bytes(8, 9), "226");
        }
        assertEquals(
                Set.of(
                        "ines-body/LS_0001.JPG",
                        "ines-body/LS_0002.JPG",
                        "ines-body/a_gpj.exe.JPG",
                        "ines-body/b_c_.JPG",
                        "ines-body/" + "x".repeat(196) + ".JPG",
                        "ines-body/_nul.JPG",
                        "ines-body/\u00e9t\u00e9 \uD83D\uDCF7.JPG",
                        "ines-body/__.JPG"),
                Set.copyOf(shoot.names()));
    }

    @Test
    void bytesThatAreNoTextAndEndlessLinesDoNoHarm() throws Exception {
        try (Control control = logIn(0)) {
            control.raw(new byte[] {'S', 'T', 'O', 'R', ' ', (byte) 0xFF, (byte) 0xC0, 13, 10});
            assertTrue(control.read().startsWith("5"));
        }
        try (Control control = logIn(0)) {
            byte[] endless = new byte[100_000];
            Arrays.fill(endless, (byte) 'A');
            control.raw(endless);
            control.raw("\r\n".getBytes(StandardCharsets.US_ASCII));
            String said = control.read();
            assertTrue(said == null || said.startsWith("5"), said);
        }
        try (Control control = logIn(0)) {
            control.store("LS_0001.JPG", bytes(1, 9), "226");
        }
        assertEquals(List.of("ines-body/LS_0001.JPG"), shoot.names());
    }

    @Test
    void nothingCanBeSeenFetchedOrTakenAway() throws Exception {
        try (Control control = logIn(0)) {
            control.store("LS_0001.JPG", bytes(1, 9), "226");
        }
        try (Control control = logIn(0)) {
            for (String list : List.of("LIST", "LIST -al", "NLST", "MLSD", "LIST /", "NLST *")) {
                assertEquals(0, control.fetch(list).length, list);
            }
            control.send("RETR LS_0001.JPG", "550");
            control.send("RETR /etc/passwd", "550");
            control.send("DELE LS_0001.JPG", "550");
            control.send("RMD /", "550");
            control.send("SIZE LS_0001.JPG", "550");
            control.send("MDTM LS_0001.JPG", "550");
            control.send("MLST LS_0001.JPG", "550");
            control.send("RNFR LS_0001.JPG", "550");
            control.send("RNTO LS_0002.JPG", "503");
            control.send("SITE CHMOD 777 LS_0001.JPG", "502");
            control.send("STAT LS_0001.JPG", "502");
            control.send("MD5 LS_0001.JPG", "502");
            control.send("MODE Z", "504");
        }
        assertEquals(List.of("ines-body/LS_0001.JPG"), shoot.names());
    }

    @Test
    void foldersAreBelievedInAndFilesLieSideBySide() throws Exception {
        try (Control control = logIn(0)) {
            control.send("PWD", "257 \"/\"");
            control.send("MKD 100LOOK", "257 \"/100LOOK\"");
            control.send("CWD 100LOOK", "250");
            control.send("PWD", "257 \"/100LOOK\"");
            control.store("LS_0001.JPG", bytes(1, 9), "226");
            control.send("CDUP", "250");
            control.send("CWD /101LOOK", "250");
            control.store("LS_0001.JPG", bytes(2, 9), "226");
            control.send("NOOP", "200");
            control.send("SYST", "215");
            control.send("OPTS UTF8 ON", "200");
        }
        assertEquals(List.of("ines-body/LS_0001 (2).JPG", "ines-body/LS_0001.JPG"), shoot.names());
    }

    @ParameterizedTest
    @CsvSource({
        "PASSIVE, PLAIN, 0.5, 500.0",
        "ACTIVE, PLAIN, 0.999, 999.0",
        "PASSIVE, TLS, 0.5, 500.0"
    })
    void whatBreaksOffLeavesNoFileUnderItsName(
            FtpUploader.Data data, FtpUploader.Privacy privacy, double part, double kilobytes)
            throws Exception {
        run(withTls(false), Disk.REAL);
        byte[] bytes = bytes(1, 1_000_000);
        try (FtpUploader camera = camera(0, data, privacy, FtpUploader.Delivery.STRAIGHT)) {
            camera.misbehave(new Fault.HalfFile(part));
            camera.send(one(bytes));
            shoot.await("word of the half", () -> shoot.last().contains("stopped half way"));
            assertEquals(List.of(), shoot.whole());
            assertEquals(List.of("ines-body/.LS_0001.JPG.part"), shoot.names());
            long kept = Files.size(folder.resolve("ines-body/.LS_0001.JPG.part"));
            assertTrue(kept > 0 && kept <= kilobytes * 1000, kept + " bytes were kept");
            assertEquals(
                    "FTP, camera ines-body: LS_0001.JPG stopped half way (%s): send it again"
                            .formatted(CameraSession.megabytes(kept)),
                    shoot.last());
            camera.send(one(bytes));
        }
        assertEquals(
                List.of("ines-body/.LS_0001.JPG.part", "ines-body/LS_0002.JPG"), shoot.names());
        try (FtpUploader camera = camera(0, data, privacy, FtpUploader.Delivery.STRAIGHT)) {
            camera.send(one(bytes));
        }
        assertEquals(
                List.of("ines-body/LS_0001.JPG", "ines-body/LS_0002.JPG"),
                shoot.names(),
                "the half of what is whole now goes");
    }

    /** The radio link is gone: no end comes, orderly or not. */
    @Test
    void aTransferInWhichNothingMovesIsBrokenOff() throws Exception {
        run(
                new FtpSetup(
                        0,
                        0,
                        0,
                        Optional.empty(),
                        false,
                        SETUP.idle(),
                        Duration.ofSeconds(1),
                        SETUP.loginPause()),
                Disk.REAL);
        try (Control control = logIn(0);
                Socket data = control.openData("STOR LS_0001.JPG")) {
            data.getOutputStream().write(bytes(1, 1_240_000));
            assertEquals(
                    "426 LS_0001.JPG stopped half way (1.2 MB): send it again.", control.read());
            control.store("LS_0001.JPG", bytes(1, 1_300_000), "226");
        }
        assertEquals(List.of("ines-body/LS_0001.JPG"), shoot.names());
    }

    @Test
    void aCameraThatSaysNothingForLongIsDisconnected() throws Exception {
        run(
                new FtpSetup(
                        0,
                        0,
                        0,
                        Optional.empty(),
                        false,
                        Duration.ofSeconds(1),
                        SETUP.dataIdle(),
                        SETUP.loginPause()),
                Disk.REAL);
        try (Control control = logIn(0)) {
            assertEquals(null, control.read());
        }
    }

    @Test
    void passiveTransfersUseThePortsOfTheirRange() throws Exception {
        int port;
        try (ServerSocket free = new ServerSocket(0)) {
            port = free.getLocalPort();
        }
        run(SETUP.on(0, port, port), Disk.REAL);
        try (Control control = logIn(0)) {
            for (int i = 1; i <= 3; i++) {
                assertTrue(control.ask("EPSV").contains("|||" + port + "|"));
                control.store("LS_000" + i + ".JPG", bytes(i, 9), "226");
            }
        }
        assertEquals(3, shoot.whole().size());
    }

    @Test
    void aHalfIsGoneOnWith() throws Exception {
        byte[] bytes = bytes(1, 1_000_000);
        try (FtpUploader camera = camera()) {
            camera.misbehave(new Fault.HalfFile(0.5));
            camera.send(one(bytes));
        }
        shoot.await("word of the half", () -> shoot.last().contains("stopped half way"));
        try (Control control = logIn(0)) {
            int there = Integer.parseInt(control.ask("SIZE LS_0001.JPG").substring(4));
            assertTrue(there > 2000 && there <= 500_000, there + " bytes");
            control.send("REST " + (there + 1), "350");
            control.refuseStore("LS_0001.JPG", "554");
            control.send("REST " + (there - 1000), "350");
            control.store("LS_0001.JPG", Arrays.copyOfRange(bytes, there - 1000, 1_000_000), "226");
            control.refuse("APPE LS_0001.JPG", "550");
        }
        assertEquals(List.of("ines-body/LS_0001.JPG"), shoot.names());
        assertArrayEquals(bytes, Files.readAllBytes(folder.resolve("ines-body/LS_0001.JPG")));
    }

    @Test
    void aHalfIsAppendedTo() throws Exception {
        byte[] bytes = bytes(1, 1_000_000);
        try (FtpUploader camera = camera()) {
            camera.misbehave(new Fault.HalfFile(0.5));
            camera.send(one(bytes));
        }
        shoot.await("word of the half", () -> shoot.last().contains("stopped half way"));
        try (Control control = logIn(0)) {
            int there = Integer.parseInt(control.ask("SIZE LS_0001.JPG").substring(4));
            control.transfer(
                    "APPE LS_0001.JPG", Arrays.copyOfRange(bytes, there, 1_000_000), "226");
        }
        assertArrayEquals(bytes, Files.readAllBytes(folder.resolve("ines-body/LS_0001.JPG")));
        assertEquals(List.of("ines-body/LS_0001.JPG"), shoot.names());
    }

    @Test
    void aLengthThatWasAnnouncedMustCome() throws Exception {
        try (Control control = logIn(0)) {
            control.send("ALLO 10", "200");
            control.store("LS_0001.JPG", bytes(1, 9), "426");
            control.send("ALLO 10", "200");
            control.store("LS_0001.JPG", bytes(1, 10), "226");
        }
        assertEquals(List.of("ines-body/LS_0001.JPG"), shoot.names());
    }

    @Test
    void nothingInItIsSaid() throws Exception {
        try (Control control = logIn(0)) {
            control.store("LS_0001.JPG", new byte[0], "451");
        }
        assertEquals(List.of(), shoot.names());
        assertEquals(
                "FTP, camera ines-body: LS_0001.JPG came with nothing in it: send it again",
                shoot.last());
    }

    @Test
    void uniqueNamesAreMadeUp() throws Exception {
        try (Control control = logIn(0)) {
            assertEquals("150 FILE: unnamed.jpg", control.transfer("STOU", bytes(1, 9), "226"));
            assertEquals("150 FILE: unnamed (2).jpg", control.transfer("STOU", bytes(2, 9), "226"));
            assertEquals("150 FILE: a.JPG", control.transfer("STOU a.JPG", bytes(3, 9), "226"));
        }
        assertEquals(
                List.of("ines-body/a.JPG", "ines-body/unnamed (2).jpg", "ines-body/unnamed.jpg"),
                shoot.names());
    }

    @Test
    void aRenameIsTheEndOfATransferAndNeverOverAnother() throws Exception {
        try (Control control = logIn(0)) {
            control.store("LS_0001.JPG", bytes(1, 9), "226");
            control.store("up.tmp", bytes(2, 9), "226 Waiting for its final name.");
            assertEquals(1, shoot.whole().size());
            assertTrue(shoot.names().contains("ines-body/.up.tmp.part"));
            control.send("RNFR up.tmp", "350");
            control.send("RNTO ../LS_0001.JPG", "553");
            control.send("RNTO LS_0001.JPG", "250 It is here as LS_0001 (2).JPG.");
        }
        assertEquals(List.of("ines-body/LS_0001 (2).JPG", "ines-body/LS_0001.JPG"), shoot.names());
        assertEquals(2, shoot.whole().size());
    }

    @Test
    void aCameraThatRenamesFromUnsuspiciousNamesIsUnderstoodAfterTheFirst() throws Exception {
        try (Control control = logIn(0)) {
            control.store("SENDING.JPG", bytes(1, 9), "226 It is here");
            control.send("RNFR SENDING.JPG", "350");
            control.send("RNTO LS_0001.JPG", "250");
            control.store("SENDING.JPG", bytes(2, 9), "226 Waiting");
            control.send("RNFR SENDING.JPG", "350");
            control.send("RNTO LS_0002.JPG", "250");
            control.store("LS_0003.JPG", bytes(3, 9), "226 Waiting");
            control.send("NOOP", "200");
            assertTrue(shoot.names().contains("ines-body/LS_0003.JPG"));
            control.store("LS_0004.JPG", bytes(4, 9), "226 Waiting");
        }
        shoot.await("the last", () -> shoot.whole().size() == 5);
        assertEquals(
                List.of(
                        "ines-body/LS_0001.JPG",
                        "ines-body/LS_0002.JPG",
                        "ines-body/LS_0003.JPG",
                        "ines-body/LS_0004.JPG"),
                shoot.names());
    }

    @Test
    void aTemporaryNameThatStaysIsSaid() throws Exception {
        try (Control control = logIn(0)) {
            control.store(".LS_0001.JPG", bytes(1, 9), "226 Waiting");
        }
        shoot.await("word of it", () -> shoot.last().contains("never given its final name"));
        assertEquals(List.of("ines-body/.LS_0001.JPG.part"), shoot.names());
        assertEquals(List.of(), shoot.whole());
    }

    @Test
    void nobodyElseGetsIn() throws Exception {
        for (String[] who :
                new String[][] {
                    {"ines-body", "wrong"},
                    {"ines-body", ""},
                    {"ines-body", "three"},
                    {"nobody", "one two"},
                    {"anonymous", "a@b"},
                    {"admin", ""}
                }) {
            try (Control control = new Control(way.port())) {
                assertTrue(control.read().startsWith("220"));
                control.ask("USER " + who[0]);
                String said = control.askOrEnd("PASS " + who[1]);
                if (said != null) {
                    assertTrue(said.startsWith("5"), who[0] + ": " + said);
                    control.send("STOR LS_0001.JPG", "530");
                    control.send("LIST", "530");
                }
                if (!who[0].equals("anonymous") && !who[1].isEmpty()) {
                    String as =
                            who[0].equals("ines-body") ? "camera ines-body" : "an unknown camera";
                    assertEquals(
                            "FTP: 127.0.0.1 was not let in as "
                                    + as
                                    + ": look at the name and the password in the camera",
                            shoot.last());
                }
            }
        }
        FtpUploader.Setup wrong =
                new FtpUploader.Setup(
                        "127.0.0.1",
                        way.port(),
                        "ines-body",
                        "wrong",
                        FtpUploader.Data.PASSIVE,
                        FtpUploader.Privacy.PLAIN,
                        FtpUploader.Delivery.STRAIGHT);
        try (FtpUploader camera = new FtpUploader(wrong)) {
            IOException refused =
                    assertThrows(IOException.class, () -> camera.send(one(bytes(1, 9))));
            assertTrue(refused.getMessage().contains("login was refused"), refused.getMessage());
            assertFalse(refused.getMessage().contains("wrong@"), refused.getMessage());
        }
        assertEquals(List.of(), shoot.names());
    }

    @Test
    void guessingIsCutShort() throws Exception {
        try (Control control = new Control(way.port())) {
            control.read();
            for (int i = 0; i < 3; i++) {
                control.ask("USER ines-body");
                control.ask("PASS wrong" + i);
            }
            assertEquals(null, control.askOrEnd("USER ines-body"));
        }
    }

    /** RFC 2577: a server that connects elsewhere can be sent against others. */
    @Test
    void activeModeGoesToTheCameraItselfAndToNoServicePort() throws Exception {
        try (ServerSocket elsewhere = new ServerSocket(0, 1, InetAddress.getByName("127.0.0.2"));
                Control control = logIn(0)) {
            int port = elsewhere.getLocalPort();
            control.send("PORT 127,0,0,2," + port / 256 + "," + port % 256, "5");
            control.refuse("STOR LS_0001.JPG", "503");
            control.send("EPRT |1|127.0.0.2|" + port + "|", "5");
            control.refuse("STOR LS_0001.JPG", "503");
            control.send("PORT 127,0,0,1,0,25", "504");
            control.send("EPRT |1|127.0.0.1|25|", "504");
            control.refuse("STOR LS_0001.JPG", "503");
        }
        assertEquals(List.of(), shoot.names());
    }

    @Test
    void whereTlsIsRequiredNobodyComesInWithoutIt() throws Exception {
        run(withTls(true), Disk.REAL);
        try (Control control = new Control(way.port())) {
            control.read();
            control.send("USER ines-body", "530");
            control.send("PASS one two", "530");
        }
    }

    @Test
    void tooManyConnectionsAreTurnedAway() throws Exception {
        List<Control> open = new ArrayList<>();
        try {
            // Two cameras of four connections each, and four more.
            for (int i = 0; i < 12; i++) {
                Control control = new Control(way.port());
                open.add(control);
                assertTrue(control.read().startsWith("220"));
            }
            try (Control last = new Control(way.port())) {
                assertTrue(last.read().startsWith("421"));
            }
        } finally {
            for (Control control : open) {
                control.close();
            }
        }
    }

    @Test
    void aTakenPortIsSaidWithItsMend() throws Exception {
        FtpWayIn second = new FtpWayIn(SETUP.on(way.port(), 0, 0), CAMERAS);
        IOException taken = assertThrows(IOException.class, () -> second.start(shoot));
        assertEquals(
                "FTP cannot listen on port "
                        + way.port()
                        + ": end the program that has it, or take another port",
                taken.getMessage());
    }

    @Test
    void aFullDiskIsSaidAndNothingThatCameIsLost() throws Exception {
        byte[] first = bytes(1, 9);
        try (FtpUploader camera = camera()) {
            camera.send(one(first));
        }
        SmallDisk small = new SmallDisk(100_000);
        run(SETUP, small);
        byte[] large = bytes(2, 300_000);
        try (Control control = logIn(0)) {
            control.store("LS_0002.JPG", large, "452");
            assertFalse(shoot.up());
            assertEquals(
                    "FTP on port "
                            + way.port()
                            + ": the disk of the frames folder is full: make room, then send"
                            + " LS_0002.JPG again; nothing that came is lost",
                    shoot.last());
            assertEquals(List.of("ines-body/LS_0001.JPG"), shoot.names());
            small.makeRoom();
            control.store("LS_0002.JPG", large, "226");
            assertTrue(shoot.up());
        }
        assertArrayEquals(first, Files.readAllBytes(folder.resolve("ines-body/LS_0001.JPG")));
        assertArrayEquals(large, Files.readAllBytes(folder.resolve("ines-body/LS_0002.JPG")));
    }

    @Test
    void endingWhileAPictureComesKeepsNoHalfUnderItsName() throws Exception {
        try (Control control = logIn(0);
                Socket data = control.openData("STOR LS_0001.JPG")) {
            OutputStream out = data.getOutputStream();
            out.write(bytes(1, 100_000));
            out.flush();
            shoot.await(
                    "the part", () -> Files.exists(folder.resolve("ines-body/.LS_0001.JPG.part")));
            running.close();
        }
        assertFalse(shoot.names().contains("ines-body/LS_0001.JPG"));
        assertEquals(List.of(), shoot.whole());
        run(SETUP, Disk.REAL);
        try (FtpUploader camera = camera()) {
            camera.send(one(bytes(1, 100_000)));
        }
        assertTrue(shoot.names().contains("ines-body/LS_0001.JPG"));
    }

    private Control logIn(int which) throws IOException {
        Control control = new Control(way.port());
        assertTrue(control.read().startsWith("220"));
        control.send("USER " + CAMERAS.get(which).name(), "331");
        control.send("PASS " + CAMERAS.get(which).password(), "230");
        return control;
    }

    @Test
    void programsThatKnowFtpByThemselvesGetTheirFilesIn() throws Exception {
        Path file = Files.write(keys.resolve("LS_0042.JPG"), bytes(5, 123_456));
        Program.run(
                "curl",
                "curl",
                "--silent",
                "--show-error",
                "--fail",
                "--upload-file",
                file.toString(),
                "--user",
                "b-body:three",
                "ftp://127.0.0.1:" + way.port() + "/DCIM/");
        assertArrayEquals(
                bytes(5, 123_456), Files.readAllBytes(folder.resolve("b-body/LS_0042.JPG")));
    }
}
