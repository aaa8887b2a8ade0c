package lookstep.server.ptpip;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.StandardSocketOptions;
import java.nio.ByteBuffer;
import java.nio.channels.SelectionKey;
import java.nio.channels.Selector;
import java.nio.channels.SocketChannel;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import lookstep.protocols.ptpip.BadBytesException;
import lookstep.protocols.ptpip.EventPacket;
import lookstep.protocols.ptpip.InitCommandAck;
import lookstep.protocols.ptpip.InitCommandRequest;
import lookstep.protocols.ptpip.InitEventAck;
import lookstep.protocols.ptpip.InitEventRequest;
import lookstep.protocols.ptpip.InitFail;
import lookstep.protocols.ptpip.Packet;
import lookstep.protocols.ptpip.PacketReader;
import lookstep.protocols.ptpip.ProbeRequest;
import lookstep.protocols.ptpip.ProbeResponse;

/**
 * The two connections to one camera (CIPA DC-005). One thread. The camera's probes are answered
 * whenever anything is waited for.
 */
final class Connection implements AutoCloseable {
    private static final long GOODBYE_NANOS = TimeUnit.SECONDS.toNanos(1);

    /** A moment to stop at may come without a waking. */
    private static final long MOST_WAIT_MILLIS = 500;

    private final Selector selector;
    private final Patience patience;
    private BooleanSupplier stopping;
    private final ByteBuffer buffer = ByteBuffer.allocate(1 << 16);
    private final Deque<Packet> answers = new ArrayDeque<>();
    private final Deque<Packet> eventPackets = new ArrayDeque<>();
    private final Deque<EventPacket> events = new ArrayDeque<>();
    private SocketChannel command;
    private SocketChannel event;
    private long heardNanos = System.nanoTime();
    private boolean ready;

    /** One connection's way in. */
    private record Stream(PacketReader reader, Deque<Packet> to) {}

    private Connection(Selector selector, Patience patience, BooleanSupplier stopping) {
        this.selector = selector;
        this.patience = patience;
        this.stopping = stopping;
    }

    /**
     * Connects.
     *
     * @param guid of this computer, always the same
     * @param selector its own from now on, closed with it; waking it ends any waiting
     * @param stopping asked after each waking: true ends it
     * @throws LinkDownException if that is not possible; the message says what to do
     */
    static Connection open(
            InetSocketAddress camera,
            UUID guid,
            String name,
            Patience patience,
            Selector selector,
            BooleanSupplier stopping)
            throws LinkDownException {
        Connection connection = new Connection(selector, patience, stopping);
        try {
            connection.command = connection.connect(camera, connection.answers);
            connection.write(
                    connection.command, new InitCommandRequest(guid, name, Packet.VERSION));
            int number = connection.first(connection.answers, InitCommandAck.class).connection();
            connection.event = connection.connect(camera, connection.eventPackets);
            connection.write(connection.event, new InitEventRequest(number));
            connection.first(connection.eventPackets, InitEventAck.class);
            connection.ready = true;
            return connection;
        } catch (LinkDownException e) {
            connection.close();
            throw e;
        }
    }

    private SocketChannel connect(InetSocketAddress camera, Deque<Packet> to)
            throws LinkDownException {
        SocketChannel channel = null;
        try {
            channel = SocketChannel.open();
            channel.configureBlocking(false);
            channel.setOption(StandardSocketOptions.TCP_NODELAY, true);
            Stream stream = new Stream(new PacketReader(), to);
            SelectionKey key = channel.register(selector, SelectionKey.OP_CONNECT, stream);
            channel.connect(camera);
            long until = System.nanoTime() + patience.answerNanos();
            while (!channel.finishConnect()) {
                pump(until);
                if (System.nanoTime() - until >= 0) {
                    channel.close();
                    throw new LinkDownException(LinkWords.NO_ANSWER);
                }
            }
            key.interestOps(SelectionKey.OP_READ);
            return channel;
        } catch (LinkDownException e) {
            throw e;
        } catch (IOException | RuntimeException e) {
            // also an address that cannot be resolved
            if (channel != null) {
                closeQuietly(channel);
            }
            throw new LinkDownException(LinkWords.cannotConnect(e), e);
        }
    }

    private <T extends Packet> T first(Deque<Packet> from, Class<T> wanted)
            throws LinkDownException {
        Packet packet = next(from);
        if (packet instanceof InitFail fail) {
            throw new LinkDownException(LinkWords.notTaken(fail.reason()));
        }
        if (!wanted.isInstance(packet)) {
            throw new LinkDownException(LinkWords.notACamera(packet + " where none is due"));
        }
        return wanted.cast(packet);
    }

    /** Sends on the first connection. */
    void send(Packet packet) throws LinkDownException {
        write(command, packet);
    }

    /** The next packet on the first connection; waits for it. */
    Packet answer() throws LinkDownException {
        return next(answers);
    }

    /** Forgets what came on the first connection and was not asked for. */
    void forgetAnswers() {
        answers.clear();
    }

    /** What the camera told of by itself, in order; empty if there is no more. */
    Optional<EventPacket> event() throws LinkDownException {
        pump(System.nanoTime());
        takeEvents();
        return Optional.ofNullable(events.poll());
    }

    /** Waits for an event, or until woken, or until a moment of {@link System#nanoTime}. */
    void waitForEvent(long untilNanos) throws LinkDownException {
        takeEvents();
        if (events.isEmpty()) {
            pump(untilNanos);
        }
    }

    /** When the camera was last heard, on either connection, by {@link System#nanoTime}. */
    long heardNanos() {
        return heardNanos;
    }

    /** From now on goes on although it is to stop, for a last word, and does not wait long. */
    void sayGoodbye() {
        long until = System.nanoTime() + GOODBYE_NANOS;
        stopping = () -> System.nanoTime() - until >= 0;
    }

    /** Asks whether the camera is still there; the answer counts as heard. */
    void probe() throws LinkDownException {
        write(event, new ProbeRequest());
    }

    private Packet next(Deque<Packet> from) throws LinkDownException {
        while (from.isEmpty()) {
            long heard = heardNanos;
            long began = System.nanoTime();
            long until = began + patience.answerNanos();
            while (from.isEmpty()) {
                pump(until);
                if (from.isEmpty() && System.nanoTime() - until >= 0) {
                    throw new LinkDownException(LinkWords.NO_ANSWER);
                }
                if (heardNanos != heard) {
                    // part of a packet is a sign of life
                    break;
                }
            }
        }
        return from.remove();
    }

    private void takeEvents() throws LinkDownException {
        while (!eventPackets.isEmpty()) {
            Packet packet = eventPackets.remove();
            if (packet instanceof EventPacket told) {
                events.add(told);
            } else if (packet instanceof ProbeRequest) {
                write(event, new ProbeResponse());
            }
        }
    }

    /** Reads what there is; waits for something until a moment, or until woken. */
    private void pump(long untilNanos) throws LinkDownException {
        if (stopping.getAsBoolean()) {
            throw new LinkDownException("stopped");
        }
        try {
            long left = untilNanos - System.nanoTime();
            if (left > 0) {
                long millis = Math.max(1, TimeUnit.NANOSECONDS.toMillis(left));
                selector.select(Math.min(millis, MOST_WAIT_MILLIS));
            } else {
                selector.selectNow();
            }
            for (SelectionKey key : selector.selectedKeys()) {
                if (key.isValid() && key.isReadable()) {
                    read((SocketChannel) key.channel(), (Stream) key.attachment());
                }
            }
            selector.selectedKeys().clear();
        } catch (LinkDownException e) {
            throw e;
        } catch (BadBytesException e) {
            throw new LinkDownException(LinkWords.notACamera(e.getMessage()), e);
        } catch (IOException e) {
            throw new LinkDownException(LinkWords.lost(e), e);
        }
        if (stopping.getAsBoolean()) {
            throw new LinkDownException("stopped");
        }
        if (ready) {
            takeEvents();
        }
    }

    private void read(SocketChannel channel, Stream stream) throws IOException, BadBytesException {
        int count = channel.read(buffer.clear());
        if (count < 0) {
            throw new LinkDownException(LinkWords.CLOSED);
        }
        heardNanos = System.nanoTime();
        stream.reader().feed(buffer.array(), 0, count);
        Optional<Packet> next = stream.reader().next();
        while (next.isPresent()) {
            stream.to().add(next.get());
            next = stream.reader().next();
        }
    }

    private void write(SocketChannel to, Packet packet) throws LinkDownException {
        ByteBuffer octets = ByteBuffer.wrap(packet.encode());
        long until = System.nanoTime() + patience.answerNanos();
        try {
            while (octets.hasRemaining()) {
                if (to.write(octets) == 0) {
                    // requests are small: the way is full only if the camera takes nothing
                    if (System.nanoTime() - until >= 0) {
                        throw new LinkDownException(LinkWords.NO_ANSWER);
                    }
                    SelectionKey key = to.keyFor(selector);
                    key.interestOps(SelectionKey.OP_READ | SelectionKey.OP_WRITE);
                    pump(until);
                    key.interestOps(SelectionKey.OP_READ);
                }
            }
        } catch (LinkDownException e) {
            throw e;
        } catch (IOException e) {
            throw new LinkDownException(LinkWords.lost(e), e);
        }
    }

    @Override
    public void close() {
        closeQuietly(command);
        closeQuietly(event);
        closeQuietly(selector);
    }

    private static void closeQuietly(AutoCloseable what) {
        try {
            if (what != null) {
                what.close();
            }
        } catch (Exception e) {
            // what does not close is gone all the same
        }
    }
}
