package lookstep.simulator.gear;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.Arrays;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.LongConsumer;
import lookstep.protocols.ptpip.Cancel;
import lookstep.protocols.ptpip.Data;
import lookstep.protocols.ptpip.EndData;
import lookstep.protocols.ptpip.OperationRequest;
import lookstep.protocols.ptpip.OperationResponse;
import lookstep.protocols.ptpip.Packet;
import lookstep.protocols.ptpip.ResponseCode;
import lookstep.protocols.ptpip.StartData;

/** A camera's end of the first connection (CIPA DC-005): requests in, data and responses out. */
final class PtpIpResponder {
    private static final int PIECE_OCTETS = 1 << 15;
    private static final int MOST_DATA_OUT = 1 << 16;

    private final PtpIpStream stream;
    private final PtpIpAnswers answers;
    private final PtpIpFaults faults;
    private final Consumer<OperationRequest> asked;
    private final Runnable cut;
    private final LongConsumer pauseNanos;

    /**
     * After the connection was taken on.
     *
     * @param asked gets each request before it is answered
     * @param cut breaks all connections
     * @param pauseNanos waits so many nanoseconds, for {@link Fault.SlowWriter}
     */
    PtpIpResponder(
            PtpIpStream stream,
            PtpIpAnswers answers,
            PtpIpFaults faults,
            Consumer<OperationRequest> asked,
            Runnable cut,
            LongConsumer pauseNanos) {
        this.stream = stream;
        this.answers = answers;
        this.faults = faults;
        this.asked = asked;
        this.cut = cut;
        this.pauseNanos = pauseNanos;
    }

    /** Answers until the connection ends, which throws. */
    void run() throws IOException {
        while (true) {
            Packet packet = stream.read();
            faults.waitWhileSilent();
            if (packet instanceof OperationRequest request) {
                asked.accept(request);
                answer(request);
            }
        }
    }

    private void answer(OperationRequest request) throws IOException {
        byte[] dataOut = request.dataPhase() == OperationRequest.DATA_OUT ? dataOut() : new byte[0];
        PtpIpAnswer answer = answers.to(request, dataOut, faults::busyNow);
        if (answer.data().isPresent() && !sent(request.transaction(), answer)) {
            answer = PtpIpAnswer.of(ResponseCode.TRANSACTION_CANCELLED);
        }
        stream.write(
                new OperationResponse(
                                answer.response().code(),
                                request.transaction(),
                                answer.parameters())
                        .encode());
    }

    private byte[] dataOut() throws IOException {
        ByteArrayOutputStream all = new ByteArrayOutputStream();
        while (all.size() < MOST_DATA_OUT) {
            Packet packet = stream.read();
            if (packet instanceof Data data) {
                all.writeBytes(data.octets());
            } else if (packet instanceof EndData end) {
                all.writeBytes(end.octets());
                return all.toByteArray();
            }
        }
        throw new IOException("more data than any setting has");
    }

    /** False if it was called off on the way. */
    private boolean sent(int transaction, PtpIpAnswer answer) throws IOException {
        byte[] data = answer.data().orElseThrow();
        Optional<Integer> cutAt =
                answer.from() == 0
                        ? Optional.empty()
                        : faults.cutWithin(answer.offset(), data.length, answer.fileOctets());
        Optional<Fault.SlowWriter> slow = faults.slow();
        int piece = slow.map(Fault.SlowWriter::pieceBytes).orElse(PIECE_OCTETS);
        stream.write(new StartData(transaction, data.length).encode());
        int at = 0;
        while (data.length - at > piece) {
            breakIf(cutAt, at, piece, transaction, data);
            stream.write(new Data(transaction, Arrays.copyOfRange(data, at, at + piece)).encode());
            at += piece;
            slow.ifPresent(s -> pauseNanos.accept(s.pauseNanos()));
            if (stream.hasMore() && stream.read() instanceof Cancel) {
                return false;
            }
        }
        breakIf(cutAt, at, data.length - at, transaction, data);
        stream.write(new EndData(transaction, Arrays.copyOfRange(data, at, data.length)).encode());
        return true;
    }

    /** Breaks within a packet, not between two. */
    private void breakIf(Optional<Integer> cutAt, int at, int length, int transaction, byte[] data)
            throws IOException {
        if (cutAt.isPresent() && cutAt.get() < at + length) {
            byte[] whole =
                    new Data(transaction, Arrays.copyOfRange(data, at, at + length)).encode();
            int headerOctets = whole.length - length;
            stream.write(Arrays.copyOf(whole, headerOctets + cutAt.get() - at));
            cut.run();
            throw new IOException("cut on purpose");
        }
    }
}
