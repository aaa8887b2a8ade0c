package lookstep.server.ptpip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.List;
import lookstep.protocols.ptpip.Operation;
import lookstep.protocols.ptpip.OperationRequest;
import lookstep.simulator.gear.Fault;
import lookstep.simulator.gear.PtpIpCamera.Offers;
import org.junit.jupiter.api.Test;

/** A camera that is off, asleep, taken, or none. */
class LinkDownTest extends LinkCase {
    @Test
    void aCameraThatIsSwitchedOffAndOnIsBackByItself() throws Exception {
        linked();
        off();
        assertTrue(received.lastSaid().endsWith("it is tried again by itself."));
        on();
        camera.put("A.JPG", Shots.small(1));
        received.awaitWhole(1);
        assertOnly(1);
    }

    @Test
    void aCameraThatIsNotThereYetIsAwaited() throws Exception {
        cameraWith(Offers.ALL);
        camera.close();
        link();
        received.awaitDown();
        assertEquals(
                "The camera lets nobody in. Switch on its control over the network, the kind"
                        + " called PTP/IP; it is tried again by itself.",
                received.lastSaid());
        on();
    }

    @Test
    void aCameraThatFallsAsleepIsMissedAndWhatItMadeComesWhenItWakes() throws Exception {
        linked();
        camera.misbehave(new Fault.CameraSilent());
        received.awaitDown();
        assertEquals(
                "The camera does not answer: it may be asleep. Wake it, or look at its battery and"
                        + " its network; it is tried again by itself.",
                received.lastSaid());
        byte[] jpeg = Shots.small(1);
        camera.put("A.JPG", jpeg);
        camera.mend();
        received.awaitWhole(1);
        assertHolds(received.whole().get(0), jpeg);
        assertTrue(received.up());
    }

    @Test
    void aCameraThatIsTakenIsAwaited() throws Exception {
        cameraWith(Offers.ALL);
        camera.misbehave(new Fault.CameraTaken());
        link();
        received.awaitDown();
        assertEquals(
                "The camera is taken by another computer. End the connection there; it is tried"
                        + " again by itself.",
                received.lastSaid());
        camera.mend();
        received.awaitUp();
    }

    @Test
    void aBusyCameraIsAskedAgain() throws Exception {
        linked();
        camera.misbehave(new Fault.CameraBusy(6));
        camera.put("A.JPG", Shots.small(1));
        received.awaitWhole(1);
        received.await("only good words", () -> !received.lastSaid().contains("busy"));
        assertTrue(
                received.said().stream()
                        .anyMatch(s -> s.contains("A new picture does not come yet")),
                received.said().toString());
    }

    @Test
    void whatIsNoCameraIsSaidToBeNone() throws Exception {
        try (ServerSocket other = new ServerSocket(0, 5, InetAddress.getLoopbackAddress())) {
            Thread web =
                    new Thread(
                            () -> {
                                try {
                                    while (true) {
                                        Socket socket = other.accept();
                                        OutputStream out = socket.getOutputStream();
                                        out.write(
                                                "HTTP/1.1 400 Bad Request\r\n\r\n"
                                                        .getBytes(StandardCharsets.US_ASCII));
                                        out.flush();
                                    }
                                } catch (IOException closed) {
                                    // the test is over
                                }
                            });
            web.setDaemon(true);
            web.start();
            port = other.getLocalPort();
            link();
            received.awaitDown();
            assertTrue(
                    received.lastSaid()
                            .startsWith("What answers does not speak PTP/IP as the standard has"),
                    received.lastSaid());
        }
    }

    @Test
    void aQuietCameraIsProbedAndStays() throws Exception {
        linked();
        int before = camera.asked().size();
        // probes are answered on the second connection, where no request is remembered
        received.await("two probes", () -> camera.probes() >= 2);
        assertEquals(before, camera.asked().size());
        assertEquals(1, received.said().size(), received.said().toString());
    }

    @Test
    void itSaysGoodbye() throws Exception {
        linked();
        end();
        List<OperationRequest> asked = camera.asked();
        assertEquals(Operation.CLOSE_SESSION.code(), asked.get(asked.size() - 1).operation());
    }

    @Test
    void aLinkIsUsedOnce() throws Exception {
        PtpIpCameraLink link = linked();
        assertThrows(IllegalStateException.class, () -> link.start(received));
    }
}
