package lookstep.server.ptpip;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import lookstep.protocols.ptpip.BadBytesException;
import lookstep.protocols.ptpip.Data;
import lookstep.protocols.ptpip.DeviceInfo;
import lookstep.protocols.ptpip.DevicePropDesc;
import lookstep.protocols.ptpip.DeviceProperty;
import lookstep.protocols.ptpip.EndData;
import lookstep.protocols.ptpip.Numbers;
import lookstep.protocols.ptpip.ObjectInfo;
import lookstep.protocols.ptpip.Operation;
import lookstep.protocols.ptpip.OperationRequest;
import lookstep.protocols.ptpip.OperationResponse;
import lookstep.protocols.ptpip.Packet;
import lookstep.protocols.ptpip.PropertyValue;
import lookstep.protocols.ptpip.ResponseCode;
import lookstep.protocols.ptpip.StartData;

/** One session with a camera: asks for one thing after another (ISO 15740). One thread. */
final class Session {
    /** More than any dataset or small picture has. */
    private static final int MOST_IN_MEMORY = 1 << 23;

    /** So much of a file that cannot be kept is let come to its end, but not without end. */
    private static final long MOST_PASSED_OVER = 1L << 32;

    private static final int SESSION = 1;

    private final Connection connection;
    private int transaction;

    /** Takes the data of one answer, piece by piece. */
    interface Sink {
        /**
         * The next octets.
         *
         * @throws IOException if they cannot be kept; the rest of the answer is then passed over
         */
        void take(byte[] octets) throws IOException;
    }

    /** Nothing is asked yet. */
    Session(Connection connection) {
        this.connection = connection;
    }

    DeviceInfo deviceInfo() throws LinkDownException, RefusedException {
        return read(DeviceInfo::read, inMemory(0, Operation.GET_DEVICE_INFO));
    }

    void open() throws LinkDownException, RefusedException {
        request(OperationRequest.NO_DATA_OUT, 0, Operation.OPEN_SESSION, SESSION);
        try {
            answerWithout(0);
        } catch (RefusedException e) {
            if (!e.is(ResponseCode.SESSION_ALREADY_OPEN)) {
                throw e;
            }
        }
        transaction = 0;
    }

    /** Handles of all that is on the camera's cards, or on one. */
    List<Integer> handles(int storage) throws LinkDownException, RefusedException {
        return read(Numbers::read, inMemory(next(), Operation.GET_OBJECT_HANDLES, storage, 0, 0))
                .values();
    }

    List<Integer> storages() throws LinkDownException, RefusedException {
        return read(Numbers::read, inMemory(next(), Operation.GET_STORAGE_IDS)).values();
    }

    ObjectInfo objectInfo(int handle) throws LinkDownException, RefusedException {
        return read(ObjectInfo::read, inMemory(next(), Operation.GET_OBJECT_INFO, handle));
    }

    byte[] thumb(int handle) throws LinkDownException, RefusedException {
        return inMemory(next(), Operation.GET_THUMB, handle);
    }

    /** At most so many octets of a file, from an offset below 4 GiB; none at its end. */
    byte[] part(int handle, long offset, int most) throws LinkDownException, RefusedException {
        byte[] part = inMemory(next(), Operation.GET_PARTIAL_OBJECT, handle, (int) offset, most);
        if (part.length > most) {
            throw new RefusedException(
                    "the camera sends %d octets where %d were asked for"
                            .formatted(part.length, most));
        }
        return part;
    }

    /**
     * A whole file.
     *
     * @throws LinkDownException if the camera is gone
     * @throws IOException from the sink, when all of the answer has come
     */
    void object(int handle, Sink sink) throws IOException, RefusedException {
        int number = next();
        request(OperationRequest.NO_DATA_OUT, number, Operation.GET_OBJECT, handle);
        answer(number, sink);
    }

    DevicePropDesc describe(DeviceProperty property) throws LinkDownException, RefusedException {
        return read(
                DevicePropDesc::read,
                inMemory(next(), Operation.GET_DEVICE_PROP_DESC, property.code()));
    }

    void set(DevicePropDesc property, PropertyValue value)
            throws LinkDownException, RefusedException {
        int number = next();
        byte[] octets = property.type().encode(value);
        request(
                OperationRequest.DATA_OUT,
                number,
                Operation.SET_DEVICE_PROP_VALUE,
                property.property());
        connection.send(new StartData(number, octets.length));
        connection.send(new EndData(number, octets));
        answerWithout(number);
    }

    /** Releases the shutter, onto the card and in the format that the camera thinks best. */
    void capture() throws LinkDownException, RefusedException {
        int number = next();
        request(OperationRequest.NO_DATA_OUT, number, Operation.INITIATE_CAPTURE, 0, 0);
        answerWithout(number);
    }

    void close() throws LinkDownException, RefusedException {
        int number = next();
        request(OperationRequest.NO_DATA_OUT, number, Operation.CLOSE_SESSION);
        answerWithout(number);
    }

    /** 1, 2, 3 and so on, without the two that mean something else. */
    private int next() {
        do {
            transaction++;
        } while (transaction == 0 || transaction == Packet.NO_TRANSACTION);
        return transaction;
    }

    private void request(int dataPhase, int number, Operation operation, Integer... parameters)
            throws LinkDownException {
        connection.forgetAnswers();
        connection.send(
                new OperationRequest(
                        dataPhase, operation.code(), number, Arrays.asList(parameters)));
    }

    private byte[] inMemory(int number, Operation operation, Integer... parameters)
            throws LinkDownException, RefusedException {
        request(OperationRequest.NO_DATA_OUT, number, operation, parameters);
        ByteArrayOutputStream all = new ByteArrayOutputStream();
        try {
            answer(
                    number,
                    octets -> {
                        if (all.size() + octets.length > MOST_IN_MEMORY) {
                            throw new LinkDownException(
                                    LinkWords.notACamera(
                                            operation + " gives more than " + MOST_IN_MEMORY));
                        }
                        all.writeBytes(octets);
                    });
        } catch (LinkDownException e) {
            throw e;
        } catch (IOException e) {
            throw cannotHappen(e);
        }
        return all.toByteArray();
    }

    private void answerWithout(int number) throws LinkDownException, RefusedException {
        try {
            answer(number, Session::pass);
        } catch (LinkDownException e) {
            throw e;
        } catch (IOException e) {
            throw cannotHappen(e);
        }
    }

    private static void pass(byte[] octets) {}

    private static IllegalStateException cannotHappen(IOException e) {
        return new IllegalStateException("keeping octets in memory", e);
    }

    /** Takes data, if there is any, and the response. */
    private void answer(int number, Sink sink) throws IOException, RefusedException {
        long claimed = StartData.UNKNOWN;
        long came = 0;
        IOException notKept = null;
        while (true) {
            Packet packet = connection.answer();
            byte[] octets = new byte[0];
            if (packet instanceof StartData start && start.transaction() == number) {
                claimed = start.length();
            } else if (packet instanceof Data data && data.transaction() == number) {
                octets = data.octets();
            } else if (packet instanceof EndData end && end.transaction() == number) {
                octets = end.octets();
            } else if (packet instanceof OperationResponse response
                    && response.transaction() == number) {
                ended(response, claimed, came, notKept);
                return;
            }
            came += octets.length;
            if ((claimed != StartData.UNKNOWN && came > claimed)
                    || (notKept != null && came > MOST_PASSED_OVER)) {
                throw new LinkDownException(
                        LinkWords.notACamera("its data does not end where it said"));
            }
            if (octets.length > 0 && notKept == null) {
                try {
                    sink.take(octets);
                } catch (LinkDownException tooMuch) {
                    throw tooMuch;
                } catch (IOException e) {
                    // the camera goes on sending: it is let finish, and then told of
                    notKept = e;
                }
            }
        }
    }

    private static void ended(
            OperationResponse response, long claimed, long came, IOException notKept)
            throws IOException, RefusedException {
        if (response.response() != ResponseCode.OK.code()) {
            throw new RefusedException(response.response());
        }
        if (notKept != null) {
            throw notKept;
        }
        if (claimed != StartData.UNKNOWN && claimed != came) {
            throw new RefusedException(
                    "the camera sent %d octets of %s"
                            .formatted(came, Long.toUnsignedString(claimed)));
        }
    }

    private interface Reading<T> {
        T read(byte[] octets) throws BadBytesException;
    }

    private static <T> T read(Reading<T> reading, byte[] octets) throws RefusedException {
        try {
            return reading.read(octets);
        } catch (BadBytesException e) {
            throw new RefusedException(
                    "its answer is not as the standard has it: " + e.getMessage());
        }
    }
}
