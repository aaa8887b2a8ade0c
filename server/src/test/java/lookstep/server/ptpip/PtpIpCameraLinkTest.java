package lookstep.server.ptpip;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import lookstep.protocols.ptpip.EventCode;
import lookstep.protocols.ptpip.ObjectFormat;
import lookstep.protocols.ptpip.ObjectInfo;
import lookstep.protocols.ptpip.Operation;
import lookstep.simulator.gear.CameraFile;
import lookstep.simulator.gear.Fault;
import lookstep.simulator.gear.PtpIpCamera.Offers;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** How pictures come in. */
class PtpIpCameraLinkTest extends LinkCase {
    private static ObjectInfo claim(String name, long octets) {
        return new ObjectInfo(
                0x0001_0001,
                ObjectFormat.EXIF_JPEG.code(),
                0,
                octets,
                0,
                0,
                0,
                0,
                0,
                0,
                0,
                0,
                0,
                0,
                0,
                name,
                "20260301T200000",
                "",
                "");
    }

    @Test
    void onlyNewPicturesComeWholeAndTheSmallPictureFirst() throws Exception {
        cameraWith(Offers.ALL);
        camera.put("OLD.JPG", Shots.small(1));
        link();
        received.awaitUp();
        assertEquals("Simulated camera is connected.", received.lastSaid());
        byte[] large = Shots.large(2);
        byte[] raw = Shots.raw(700_000, 3);
        Path sent = camera.send(List.of(new CameraFile("JPG", large), new CameraFile("RAW", raw)));
        received.awaitWhole(2);
        assertEquals(Path.of("LS_0001.JPG"), sent);
        assertEquals(
                List.of(folder().resolve("LS_0001.JPG"), folder().resolve("LS_0001.RAW")),
                received.whole());
        assertHolds(folder().resolve("LS_0001.JPG"), large);
        assertHolds(folder().resolve("LS_0001.RAW"), raw);
        assertEquals(
                List.of("early LS_0001.JPG", "whole LS_0001.JPG", "whole LS_0001.RAW"),
                received.order());
        byte[] thumb = received.thumbs().get(0);
        assertArrayEquals(new byte[] {(byte) 0xFF, (byte) 0xD8}, new byte[] {thumb[0], thumb[1]});
        assertTrue(thumb.length < large.length / 10, thumb.length + " octets");
        assertOnly(2);
    }

    @Test
    void aLinkCutWithinAFileGoesOnWhereItStopped() throws Exception {
        linked();
        camera.misbehave(new Fault.HalfFile(0.6));
        byte[] large = Shots.large(4);
        camera.send(List.of(new CameraFile("JPG", large)));
        received.awaitWhole(1);
        assertHolds(received.whole().get(0), large);
        assertOnly(1);
        assertTrue(received.said().size() >= 3, "up, down, up: " + received.said());
        List<Integer> offsets =
                asked(Operation.GET_PARTIAL_OBJECT).stream()
                        .map(request -> request.parameters().get(1))
                        .toList();
        assertEquals(0, offsets.get(0));
        assertEquals(1, offsets.stream().filter(offset -> offset == 0).count(), "" + offsets);
        assertEquals(offsets.stream().sorted().toList(), offsets);
    }

    @Test
    void aLinkCutWithinAFileThatComesOnlyWholeBeginsAgain() throws Exception {
        cameraWith(Offers.ALL.without(Operation.GET_PARTIAL_OBJECT));
        link();
        received.awaitUp();
        assertEquals(
                "Simulated camera is connected. By the open standard alone (makers' extensions"
                        + " vary): it gives files only whole, so one that breaks off begins again.",
                received.lastSaid());
        camera.misbehave(new Fault.HalfFile(0.6));
        byte[] large = Shots.large(5);
        camera.send(List.of(new CameraFile("JPG", large)));
        received.awaitWhole(1);
        assertHolds(received.whole().get(0), large);
        assertOnly(1);
        assertEquals(2, asked(Operation.GET_OBJECT).size());
    }

    @Test
    void picturesMadeWhileTheCameraWasAwayComeSmallOnesFirstNewestFirst() throws Exception {
        cameraWith(Offers.ALL);
        camera.put("OLD.JPG", Shots.small(1));
        link();
        received.awaitUp();
        off();
        camera.put("A.JPG", Shots.small(2));
        camera.put("B.JPG", Shots.small(3));
        camera.put("C.JPG", Shots.small(4));
        on();
        received.awaitWhole(3);
        assertEquals(
                List.of(
                        "early C.JPG",
                        "early B.JPG",
                        "early A.JPG",
                        "whole A.JPG",
                        "whole B.JPG",
                        "whole C.JPG"),
                received.order());
        assertOnly(3);
    }

    @Test
    void eventsMayComeTwiceAndOfFolders() throws Exception {
        linked();
        int folder = camera.handles().get(0);
        camera.tell(EventCode.OBJECT_ADDED, folder);
        int first = camera.put("A.JPG", Shots.small(1));
        camera.tell(EventCode.OBJECT_ADDED, first);
        camera.tell(EventCode.OBJECT_ADDED, first);
        received.awaitWhole(1);
        camera.tell(EventCode.OBJECT_ADDED, first);
        camera.put("B.JPG", Shots.small(2));
        received.awaitWhole(2);
        assertEquals(
                List.of(folder().resolve("A.JPG"), folder().resolve("B.JPG")), received.whole());
        assertOnly(2);
    }

    @Test
    void whatABusyCameraToldOfIsNotLost() throws Exception {
        linked();
        camera.misbehave(new Fault.CameraBusy(4));
        camera.put("A.JPG", Shots.small(1));
        received.awaitWhole(1);
        assertTrue(asked(Operation.GET_OBJECT_INFO).size() > 1, "asked again after it was busy");
        assertOnly(1);
    }

    @Test
    void aHandleThatIsUsedAgainIsANewPicture() throws Exception {
        linked();
        int handle = camera.put("A.JPG", Shots.small(1));
        received.awaitWhole(1);
        camera.tell(EventCode.OBJECT_REMOVED, handle);
        camera.tell(EventCode.OBJECT_ADDED, handle);
        received.awaitWhole(2);
        assertEquals(received.whole().get(0), received.whole().get(1));
        assertOnly(1);
    }

    @Test
    void aCameraThatTellsNothingIsLookedAt() throws Exception {
        cameraWith(Offers.ALL.without(EventCode.OBJECT_ADDED));
        link();
        received.awaitUp();
        assertTrue(
                received.lastSaid().contains("its card is looked at every 2 s"),
                received.lastSaid());
        camera.put("A.JPG", Shots.small(1));
        received.awaitWhole(1);
        assertOnly(1);
    }

    @Test
    void whatACameraDoesNotOfferIsSaid() throws Exception {
        cameraWith(
                Offers.ALL.without(
                        Operation.GET_THUMB,
                        Operation.INITIATE_CAPTURE,
                        Operation.SET_DEVICE_PROP_VALUE));
        link();
        received.awaitUp();
        assertEquals(
                "Simulated camera is connected. By the open standard alone (makers' extensions"
                        + " vary): it gives no small pictures ahead; it cannot be released from"
                        + " here; to be set by hand: f-number, exposure time, ISO.",
                received.lastSaid());
        camera.put("A.JPG", Shots.small(1));
        received.awaitWhole(1);
        assertEquals(List.of(), received.early());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "../../../escape.JPG",
                "/etc/escape.JPG",
                "..\\..\\escape.JPG",
                "..",
                "",
                ".hidden.JPG",
                "a\0b.JPG",
                "line\nfeed.JPG",
                "GPJ.\u202Egnp.JPG",
                "con.JPG",
                "\uD800.JPG"
            })
    void hostileNamesStayInTheFolder(String name) throws Exception {
        linked();
        byte[] jpeg = Shots.small(1);
        camera.put(name, jpeg);
        received.awaitWhole(1);
        Path file = received.whole().get(0);
        assertEquals(folder(), file.getParent());
        assertFalse(file.getFileName().toString().startsWith("."), file.toString());
        assertHolds(file, jpeg);
        assertOnly(1);
    }

    @Test
    void theLongestNameThatACameraCanGive() throws Exception {
        linked();
        camera.put("x".repeat(250) + ".JPG", Shots.small(1));
        camera.put("\u4E2D".repeat(250) + ".JPG", Shots.small(2));
        received.awaitWhole(2);
        assertOnly(2);
    }

    @Test
    void nothingIsWrittenOver() throws Exception {
        cameraWith(Offers.ALL);
        byte[] mine = Shots.small(1);
        Files.createDirectories(folder());
        Files.write(folder().resolve("A.JPG"), mine);
        link();
        received.awaitUp();
        byte[] other = Shots.small(2);
        camera.put("A.JPG", other);
        received.awaitWhole(1);
        assertEquals(folder().resolve("A (2).JPG"), received.whole().get(0));
        assertHolds(folder().resolve("A.JPG"), mine);
        assertHolds(folder().resolve("A (2).JPG"), other);
        camera.put("A.JPG", mine);
        received.awaitWhole(2);
        assertEquals(folder().resolve("A.JPG"), received.whole().get(1));
        assertOnly(2);
    }

    @Test
    void aSizeThatIsClaimedIsNotBelieved() throws Exception {
        linked();
        byte[] jpeg = Shots.small(1);
        camera.put(claim("MORE.JPG", 0xFFFF_FFF0L), jpeg, Optional.empty());
        camera.put(claim("HUGE.JPG", 0xFFFF_FFFFL), jpeg, Optional.empty());
        camera.put(claim("NONE.JPG", 0), jpeg, Optional.empty());
        received.awaitWhole(3);
        for (String name : List.of("MORE.JPG", "HUGE.JPG", "NONE.JPG")) {
            assertHolds(folder().resolve(name), jpeg);
        }
        assertOnly(3);
    }

    @Test
    void aFolderThatCannotBeWrittenToIsToldAndThePictureIsNotLost() throws Exception {
        cameraWith(Offers.ALL);
        Files.writeString(folder(), "in the way");
        link();
        received.awaitUp();
        byte[] jpeg = Shots.small(1);
        camera.put("A.JPG", jpeg);
        received.awaitDown();
        assertTrue(
                received.lastSaid().contains("still in the camera and comes by itself"),
                received.lastSaid());
        assertTrue(received.lastSaid().contains(folder().toString()), received.lastSaid());
        Files.delete(folder());
        received.awaitWhole(1);
        received.awaitUp();
        assertHolds(folder().resolve("A.JPG"), jpeg);
        assertOnly(1);
    }

    @Test
    void aPictureThatIsDeletedInTheCameraMeanwhileLeavesNothing() throws Exception {
        linked();
        camera.misbehave(new Fault.SlowWriter(20_000, 10_000_000));
        int handle = camera.put("A.JPG", Shots.large(1));
        received.await("the file to begin", () -> !asked(Operation.GET_PARTIAL_OBJECT).isEmpty());
        camera.remove(handle);
        camera.mend();
        camera.put("B.JPG", Shots.small(2));
        received.awaitWhole(1);
        assertEquals(folder().resolve("B.JPG"), received.whole().get(0));
        assertOnly(1);
    }

    @Test
    void otherHandlesAfterTheCameraWasAwayBringNoOldPictures() throws Exception {
        cameraWith(Offers.ALL);
        camera.put("OLD.JPG", Shots.small(1));
        later();
        link();
        received.awaitUp();
        camera.put("A.JPG", Shots.small(2));
        received.awaitWhole(1);
        off();
        camera.renumber();
        later();
        camera.put("B.JPG", Shots.small(3));
        on();
        received.awaitWhole(2);
        camera.put("C.JPG", Shots.small(4));
        received.awaitWhole(3);
        assertEquals(
                List.of(
                        folder().resolve("A.JPG"),
                        folder().resolve("B.JPG"),
                        folder().resolve("C.JPG")),
                received.whole());
        assertOnly(3);
    }

    @Test
    void aHalfFileGoesOnUnderItsNewHandle() throws Exception {
        linked();
        byte[] large = Shots.large(1);
        camera.misbehave(new Fault.HalfFile(0.6));
        camera.misbehave(new Fault.CameraTaken());
        camera.put("A.JPG", large);
        received.awaitDown();
        camera.renumber();
        camera.mend();
        received.awaitWhole(1);
        assertHolds(folder().resolve("A.JPG"), large);
        assertOnly(1);
    }

    @Test
    void aLaterRunOfTheProgramFetchesWhatWasMadeInBetweenAndNothingElse() throws Exception {
        cameraWith(Offers.ALL);
        camera.put("OLD.JPG", Shots.small(1));
        link();
        received.awaitUp();
        camera.put("A.JPG", Shots.small(2));
        received.awaitWhole(1);
        endLink();
        camera.put("B.JPG", Shots.small(3));
        link();
        received.awaitWhole(1);
        assertEquals(List.of(folder().resolve("B.JPG")), received.whole());
        camera.put("C.JPG", Shots.small(4));
        received.awaitWhole(2);
        assertOnly(3);
        assertEquals(3, asked(Operation.GET_PARTIAL_OBJECT).size());
    }

    @Test
    void aLaterRunFetchesWhatTheOneBeforeHadBegun() throws Exception {
        linked();
        camera.misbehave(new Fault.HalfFile(0.5));
        endLink();
        camera.mend();
        camera.put("A.JPG", Shots.small(2));
        link();
        received.awaitWhole(1);
        assertHolds(folder().resolve("A.JPG"), Shots.small(2));
    }

    @Test
    void aLaterRunOnACameraThatGaveOtherHandlesBringsNoOldPictures() throws Exception {
        cameraWith(Offers.ALL);
        camera.put("OLD.JPG", Shots.small(1));
        link();
        received.awaitUp();
        endLink();
        camera.renumber();
        link();
        received.awaitUp();
        camera.put("A.JPG", Shots.small(2));
        received.awaitWhole(1);
        assertEquals(List.of(folder().resolve("A.JPG")), received.whole());
        assertOnly(1);
    }

    @Test
    void aNoteThatIsDamagedBringsNoOldPictures() throws Exception {
        cameraWith(Offers.ALL);
        camera.put("OLD.JPG", Shots.small(1));
        Files.createDirectories(folder());
        Files.writeString(folder().resolve(".before-" + GUID), "12\n\u0000");
        link();
        received.awaitUp();
        camera.put("A.JPG", Shots.small(2));
        received.awaitWhole(1);
        assertOnly(1);
    }

    /** The same camera and the same frames folder, for another band. */
    @Test
    void anotherShootGetsNothingThatWasMadeBeforeIt() throws Exception {
        linked();
        camera.put("A.JPG", Shots.small(1));
        received.awaitWhole(1);
        endLink();
        Files.delete(folder().resolve("A.JPG"));
        camera.put("PRIVATE.JPG", Shots.small(2));
        link(UUID.fromString("99112233-4455-6677-8899-aabbccddeeff"));
        received.awaitUp();
        camera.put("B.JPG", Shots.small(3));
        received.awaitWhole(1);
        assertEquals(List.of(folder().resolve("B.JPG")), received.whole());
        assertOnly(1);
    }
}
