package lookstep.server.ptpip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import lookstep.protocols.ptpip.DeviceProperty;
import lookstep.protocols.ptpip.Operation;
import lookstep.server.gear.CameraControl.Standing;
import lookstep.server.plan.CameraSettings;
import lookstep.simulator.gear.Fault;
import lookstep.simulator.gear.PtpIpCamera.Offers;
import org.junit.jupiter.api.Test;

/** Setting a camera and releasing it. Units as ISO 15740 has them: f/8 is 800, 1/60 s is 167. */
class CameraControlTest extends LinkCase {
    private static final CameraSettings F8 = new CameraSettings(8, 1.0 / 60, 1600, 5600);

    private static final String KELVIN =
            "set white balance 5600 K on the camera: the open standard has no setting for it in"
                    + " kelvin";

    private void awaitByHand(String... byHand) {
        Standing wanted = new Standing(true, true, List.of(byHand));
        received.await("standing " + wanted, () -> standing().equals(wanted));
    }

    private void assertDials(long fNumber, long time, long iso) {
        assertEquals(fNumber, camera.dial(DeviceProperty.F_NUMBER));
        assertEquals(time, camera.dial(DeviceProperty.EXPOSURE_TIME));
        assertEquals(iso, camera.dial(DeviceProperty.EXPOSURE_INDEX));
    }

    @Test
    void whatIsWantedIsSetAndOnlyTheWhiteBalanceIsLeftToTheHand() throws Exception {
        PtpIpCameraLink link = linked();
        received.await("to be told", () -> standing().connected());
        assertEquals(new Standing(true, true, List.of()), standing());
        link.control().want(F8);
        awaitByHand(KELVIN);
        assertDials(800, 167, 1600);
        // the white balance that it stood at is left alone
        assertEquals(2, camera.dial(DeviceProperty.WHITE_BALANCE));
    }

    @Test
    void onlyWhatStandsElsewhereIsTurned() throws Exception {
        PtpIpCameraLink link = linked();
        link.control().want(new CameraSettings(5.6, 1.0 / 125, 800, 5600));
        awaitByHand(KELVIN);
        assertDials(560, 80, 800);
        assertEquals(
                List.of(List.of(DeviceProperty.EXPOSURE_INDEX.code())),
                asked(Operation.SET_DEVICE_PROP_VALUE).stream()
                        .map(request -> request.parameters())
                        .toList());
    }

    @Test
    void whatIsRefusedIsToBeSetByHand() throws Exception {
        PtpIpCameraLink link = linked();
        camera.misbehave(new Fault.SettingRefused(DeviceProperty.F_NUMBER));
        link.control().want(F8);
        awaitByHand(
                "set f/8 on the camera: it refuses to be set from here; is it on automatic?",
                KELVIN);
        assertDials(560, 167, 1600);
        // set by hand, which the camera tells
        camera.mend();
        camera.turn(DeviceProperty.F_NUMBER, 800);
        awaitByHand(KELVIN);
    }

    @Test
    void whatIsNotOfferedIsToBeSetByHand() throws Exception {
        cameraWith(Offers.ALL);
        camera.misbehave(new Fault.SettingMissing(DeviceProperty.EXPOSURE_TIME));
        PtpIpCameraLink link = link();
        received.awaitUp();
        link.control().want(F8);
        awaitByHand("set 1/60 s on the camera: it takes no exposure time from here", KELVIN);
        assertDials(800, 80, 1600);
    }

    @Test
    void whatIsFarFromAllThatItCanIsToBeSetByHand() throws Exception {
        PtpIpCameraLink link = linked();
        link.control().want(new CameraSettings(1.8, 1.0 / 60, 1600, 5600));
        awaitByHand(
                "set f/1.8 on the camera: the nearest that it takes from here is f/2.8", KELVIN);
        assertDials(560, 167, 1600);
    }

    @Test
    void aDialThatIsTurnedOnTheCameraIsToldAndNotTurnedBack() throws Exception {
        PtpIpCameraLink link = linked();
        link.control().want(F8);
        awaitByHand(KELVIN);
        camera.turn(DeviceProperty.F_NUMBER, 1100);
        awaitByHand("set f/8 on the camera: it stands at f/11", KELVIN);
        assertDials(1100, 167, 1600);
    }

    @Test
    void aBusyCameraIsSetALittleLater() throws Exception {
        PtpIpCameraLink link = linked();
        camera.misbehave(new Fault.CameraBusy(2));
        link.control().want(F8);
        awaitByHand(KELVIN);
        assertDials(800, 167, 1600);
    }

    @Test
    void whatIsWantedWhileTheCameraIsAwayIsSetWhenItIsBack() throws Exception {
        PtpIpCameraLink link = linked();
        link.control().want(new CameraSettings(11, 1.0 / 60, 1600, 5600));
        awaitByHand(KELVIN);
        off();
        received.await("to be told", () -> !standing().connected());
        assertEquals("set f/11 on the camera: it is not reached now", standing().byHand().get(0));
        link.control().want(F8);
        on();
        awaitByHand(KELVIN);
        assertDials(800, 167, 1600);
    }

    @Test
    void aReleaseMakesAPictureThatComesIn() throws Exception {
        PtpIpCameraLink link = linked();
        link.control().release();
        received.awaitWhole(1);
        assertEquals(folder().resolve("RELEASED.JPG"), received.whole().get(0));
        assertEquals(1, asked(Operation.INITIATE_CAPTURE).size());
    }

    @Test
    void aReleaseThatFindsNoCameraIsNotKept() throws Exception {
        PtpIpCameraLink link = linked();
        off();
        link.control().release();
        on();
        camera.put("A.JPG", Shots.small(1));
        received.awaitWhole(1);
        assertEquals(List.of(), asked(Operation.INITIATE_CAPTURE));
    }

    @Test
    void aReleaseThatIsRefusedIsSaid() throws Exception {
        PtpIpCameraLink link = linked();
        camera.misbehave(new Fault.CameraBusy(1));
        link.control().release();
        received.await("to be told", () -> received.lastSaid().contains("not released"));
        assertEquals(
                "Simulated camera is connected. It was not released: the camera answers 'device"
                        + " busy'. Press again.",
                received.lastSaid());
        link.control().release();
        received.awaitWhole(1);
        assertTrue(received.lastSaid().endsWith("is connected."), received.lastSaid());
    }

    @Test
    void aCameraThatCannotBeReleasedSaysSo() throws Exception {
        cameraWith(Offers.ALL.without(Operation.INITIATE_CAPTURE));
        PtpIpCameraLink link = link();
        received.await("to be told", () -> standing().connected());
        assertEquals(new Standing(true, false, List.of()), standing());
        link.control().release();
        received.await("to be told", () -> received.lastSaid().contains("press the shutter"));
    }
}
