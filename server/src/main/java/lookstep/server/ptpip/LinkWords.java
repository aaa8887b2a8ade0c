package lookstep.server.ptpip;

import java.net.ConnectException;
import java.nio.channels.UnresolvedAddressException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import lookstep.protocols.ptpip.DeviceInfo;
import lookstep.protocols.ptpip.EventCode;
import lookstep.protocols.ptpip.InitFail;
import lookstep.protocols.ptpip.Operation;
import lookstep.server.disk.HarmlessName;

/** What the pages say of a camera's link, with the mend. */
final class LinkWords {
    private static final int MOST_NAME = 60;

    static final String NO_ANSWER =
            "The camera does not answer: it may be asleep. Wake it, or look at its battery and its"
                    + " network; it is tried again by itself.";
    static final String CLOSED =
            "The camera ended the connection. Wake it or switch it on; it is tried again by"
                    + " itself.";
    private static final String AGAIN = "; it is tried again by itself.";

    private LinkWords() {}

    static String cannotConnect(Exception why) {
        if (why instanceof UnresolvedAddressException) {
            return "There is no machine of that name in the network. Look at the camera's address"
                    + AGAIN;
        }
        if (why instanceof ConnectException && said(why).contains("refused")) {
            return "The camera lets nobody in. Switch on its control over the network, the kind"
                    + " called PTP/IP"
                    + AGAIN;
        }
        return "The camera is not reached ("
                + said(why)
                + "). Look whether it is on and in the same network"
                + AGAIN;
    }

    static String notTaken(int reason) {
        return switch (reason) {
            case InitFail.REJECTED ->
                    "The camera does not want this computer. Allow it in the camera's network"
                            + " menu, as 'Lookstep'"
                            + AGAIN;
            case InitFail.BUSY ->
                    "The camera is taken by another computer. End the connection there" + AGAIN;
            default ->
                    "The camera does not let this computer in (reason "
                            + Integer.toUnsignedString(reason)
                            + "). Switch it off and on"
                            + AGAIN;
        };
    }

    static String notACamera(String what) {
        return "What answers does not speak PTP/IP as the standard has it ("
                + what
                + "). Look at the address and at the camera's network setting"
                + AGAIN;
    }

    /** Something that this program did not think of. */
    static String ourFault(Exception what) {
        return "The talk with the camera failed in this program ("
                + what
                + "). Please report it with the log"
                + AGAIN;
    }

    static String lost(Exception why) {
        return "The link to the camera broke ("
                + said(why)
                + "). Look whether it is on and near enough"
                + AGAIN;
    }

    static String refused(String what, RefusedException why) {
        return "The camera does not "
                + what
                + ": "
                + why.getMessage()
                + ". Switch it off and on"
                + AGAIN;
    }

    private static String said(Exception why) {
        String message = why.getMessage();
        return message == null ? why.getClass().getSimpleName() : message.toLowerCase(Locale.ROOT);
    }

    /** A camera's own words, without what would break a line, and not too long. */
    static String plain(String fromCamera) {
        StringBuilder plain = new StringBuilder();
        fromCamera
                .codePoints()
                .filter(HarmlessName::isShown)
                .limit(MOST_NAME)
                .forEach(plain::appendCodePoint);
        return plain.toString().strip();
    }

    /** Which camera it is, and what it does not offer. */
    static String up(DeviceInfo camera) {
        String model = plain(camera.model());
        List<String> lacks = new ArrayList<>();
        if (!camera.tells(EventCode.OBJECT_ADDED)) {
            lacks.add("it does not tell of new pictures, so its card is looked at every 2 s");
        }
        if (!camera.offers(Operation.GET_THUMB)) {
            lacks.add("it gives no small pictures ahead");
        }
        if (!camera.offers(Operation.GET_PARTIAL_OBJECT)) {
            lacks.add("it gives files only whole, so one that breaks off begins again");
        }
        if (!camera.offers(Operation.INITIATE_CAPTURE)) {
            lacks.add("it cannot be released from here");
        }
        List<String> byHand = new ArrayList<>();
        for (Dial dial : Dial.values()) {
            if (!dial.offeredBy(camera)) {
                byHand.add(dial.words());
            }
        }
        if (!byHand.isEmpty()) {
            lacks.add("to be set by hand: " + String.join(", ", byHand));
        }
        return (model.isEmpty() ? "A camera that does not say its name" : model)
                + " is connected"
                + (lacks.isEmpty()
                        ? "."
                        : ". By the open standard alone (makers' extensions vary): "
                                + String.join("; ", lacks)
                                + ".");
    }
}
