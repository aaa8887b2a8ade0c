package lookstep.simulator.gear;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDateTime;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.locks.LockSupport;
import lookstep.protocols.image.JpegInfo;
import lookstep.protocols.ptpip.DateTime;
import lookstep.protocols.ptpip.DeviceProperty;
import lookstep.protocols.ptpip.EventCode;
import lookstep.protocols.ptpip.EventPacket;
import lookstep.protocols.ptpip.InitCommandAck;
import lookstep.protocols.ptpip.InitCommandRequest;
import lookstep.protocols.ptpip.InitEventAck;
import lookstep.protocols.ptpip.InitEventRequest;
import lookstep.protocols.ptpip.InitFail;
import lookstep.protocols.ptpip.ObjectFormat;
import lookstep.protocols.ptpip.ObjectInfo;
import lookstep.protocols.ptpip.Operation;
import lookstep.protocols.ptpip.OperationRequest;
import lookstep.protocols.ptpip.Packet;
import lookstep.protocols.ptpip.ProbeRequest;
import lookstep.protocols.ptpip.ProbeResponse;
import lookstep.simulator.model.optics.Camera;

/**
 * A camera that others of this machine reach by PTP/IP: pictures that are sent lie on its card, and
 * it tells of them. One computer at a time, as cameras have it. It can be switched on and off; the
 * card keeps what is on it. Any thread.
 */
public final class PtpIpCamera implements Transfer, AutoCloseable {
    private static final int MOST_REMEMBERED = 10_000;
    private static final UUID GUID = new UUID(0x4c6f6f6b73746570L, 0x43616d6572610001L);

    private final Offers offers;
    private final Clock clock;
    private final Runnable shutter;
    private final CameraCard card = new CameraCard();
    private final CameraDials dials = new CameraDials();
    private final PtpIpFaults faults = new PtpIpFaults();
    private TcpListener listener;
    private int connection;
    private int pictures;
    private int probes;
    private final Deque<OperationRequest> asked = new ArrayDeque<>();
    private PtpIpStream command;
    private PtpIpStream events;

    /**
     * What a camera offers of the standard.
     *
     * @param model how it calls itself
     * @param operations that it can be asked for
     * @param events that it tells of
     */
    public record Offers(String model, Set<Operation> operations, Set<EventCode> events) {
        /** All that this program knows of. */
        public static final Offers ALL =
                new Offers(
                        "Simulated camera",
                        EnumSet.allOf(Operation.class),
                        EnumSet.allOf(EventCode.class));

        public Offers {
            operations = Set.copyOf(operations);
            events = Set.copyOf(events);
        }

        /** The same without some operations. */
        public Offers without(Operation... fewer) {
            EnumSet<Operation> left = EnumSet.copyOf(operations);
            left.removeAll(Set.of(fewer));
            return new Offers(model, left, events);
        }

        /** The same without some events. */
        public Offers without(EventCode... fewer) {
            EnumSet<EventCode> left = EnumSet.copyOf(events);
            left.removeAll(Set.of(fewer));
            return new Offers(model, operations, left);
        }
    }

    /**
     * A camera that is switched off.
     *
     * @param offers what it can do
     * @param clock for the time of its files
     * @param shutter makes a picture, which comes back by {@link #send}; called on a thread of its
     *     own when the camera is released over the network
     */
    public PtpIpCamera(Offers offers, Clock clock, Runnable shutter) {
        this.offers = offers;
        this.clock = clock;
        this.shutter = shutter;
    }

    /**
     * Switches it on.
     *
     * @param port of this machine, 0 for any free one
     * @return where it is reached
     * @throws IOException if the port cannot be had
     */
    public synchronized InetSocketAddress start(int port) throws IOException {
        if (listener != null) {
            throw new IllegalStateException("it is on already");
        }
        listener = TcpListener.start(port, "simulated camera", this::converse);
        return listener.address();
    }

    /** Switches it off. */
    @Override
    public synchronized void close() {
        if (listener != null) {
            listener.close();
            listener = null;
        }
    }

    /** Puts the files on the card, all under the next name, and tells of them. */
    @Override
    public Path send(List<CameraFile> files) {
        String name = nextName();
        for (CameraFile file : files) {
            put(name + "." + file.ending(), file.bytes());
        }
        return Path.of(name + "." + files.get(0).ending());
    }

    private synchronized String nextName() {
        pictures++;
        return String.format(Locale.ROOT, "LS_%04d", pictures);
    }

    /**
     * Puts one file on the card and tells of it.
     *
     * @param name whatever it is to be called
     * @return its handle
     */
    public int put(String name, byte[] content) {
        Optional<byte[]> thumb = ThumbFile.of(content);
        Optional<JpegInfo> size = JpegInfo.read(content);
        int format =
                size.isPresent() ? ObjectFormat.EXIF_JPEG.code() : ObjectFormat.UNDEFINED.code();
        String now = new DateTime(LocalDateTime.now(clock).withNano(0), Optional.empty()).text();
        return put(
                new ObjectInfo(
                        CameraCard.STORAGE,
                        format,
                        0,
                        content.length,
                        thumb.isPresent() ? ObjectFormat.JFIF.code() : 0,
                        thumb.map(t -> t.length).orElse(0),
                        thumb.isPresent() ? ThumbFile.WIDTH_PIXELS : 0,
                        thumb.isPresent() ? ThumbFile.WIDTH_PIXELS * 3 / 4 : 0,
                        size.map(JpegInfo::width).orElse(0),
                        size.map(JpegInfo::height).orElse(0),
                        24,
                        card.folder(),
                        0,
                        0,
                        0,
                        name,
                        now,
                        now,
                        ""),
                content,
                thumb);
    }

    /**
     * Puts an object on the card that claims to be whatever it likes, and tells of it.
     *
     * @return its handle
     */
    public int put(ObjectInfo claim, byte[] content, Optional<byte[]> thumb) {
        int handle = card.add(claim, content, thumb);
        tell(EventCode.OBJECT_ADDED, handle);
        return handle;
    }

    /** Deletes an object and tells of it. */
    public void remove(int handle) {
        card.remove(handle);
        tell(EventCode.OBJECT_REMOVED, handle);
    }

    /** Gives all objects other handles, as a camera may when it is switched on again. */
    public void renumber() {
        card.renumber();
    }

    /** Handles of all objects on the card, folders as well. */
    public List<Integer> handles() {
        return card.handles();
    }

    /** What it was asked for of late, oldest first, over all sessions. */
    public synchronized List<OperationRequest> asked() {
        return List.copyOf(asked);
    }

    /** How often it was asked whether it is still there. */
    public synchronized int probes() {
        return probes;
    }

    private synchronized void remember(OperationRequest request) {
        if (asked.size() == MOST_REMEMBERED) {
            asked.remove();
        }
        asked.add(request);
    }

    /** Turns a dial by hand, and tells of it. */
    public void turn(DeviceProperty dial, long value) {
        dials.set(dial, value);
        tell(EventCode.DEVICE_PROP_CHANGED, dial.code());
    }

    /** What a dial stands at, in the property's unit. */
    public long dial(DeviceProperty dial) {
        return dials.value(dial);
    }

    /** A camera as its dials stand, in place of what would be set by hand. */
    public Camera dialled(Camera byHand) {
        return byHand.withExposure(
                dial(DeviceProperty.F_NUMBER) / 100.0,
                dial(DeviceProperty.EXPOSURE_TIME) / 10_000.0,
                (double) dial(DeviceProperty.EXPOSURE_INDEX));
    }

    /** Tells of something, if it ever tells of this; nothing if nobody is connected. */
    public void tell(EventCode event, int parameter) {
        PtpIpStream to;
        synchronized (this) {
            to = events;
        }
        if (to == null || faults.silent() || !offers.events().contains(event)) {
            return;
        }
        try {
            to.write(
                    new EventPacket(event.code(), Packet.NO_TRANSACTION, List.of(parameter))
                            .encode());
        } catch (IOException gone) {
            // whoever comes back looks at the card
        }
    }

    /**
     * Does what the fault says. {@link Fault.HalfFile} cuts the connections at that part of the
     * next file that is fetched over it; it is then mended by itself.
     */
    @Override
    public void misbehave(Fault.OfCamera fault) {
        if (fault instanceof Fault.SettingRefused refused) {
            dials.refuse(refused.setting());
        } else if (fault instanceof Fault.SettingMissing missing) {
            dials.miss(missing.setting());
        } else {
            faults.set(fault);
        }
    }

    @Override
    public void mend() {
        dials.mend();
        if (faults.mend()) {
            cut();
        }
    }

    /** Cuts the connections, as when the radio link is lost for a moment. */
    public synchronized void cut() {
        if (listener != null) {
            listener.cut();
        }
    }

    private void converse(Socket socket) throws IOException {
        socket.setTcpNoDelay(true);
        PtpIpStream stream = new PtpIpStream(socket);
        Packet first = stream.read();
        faults.waitWhileSilent();
        if (first instanceof InitCommandRequest) {
            commands(stream);
        } else if (first instanceof InitEventRequest request) {
            events(stream, request);
        }
    }

    private void commands(PtpIpStream stream) throws IOException {
        int number;
        synchronized (this) {
            if (faults.taken() || command != null) {
                number = 0;
            } else {
                number = ++connection;
                command = stream;
            }
        }
        if (number == 0) {
            stream.write(new InitFail(InitFail.BUSY).encode());
            return;
        }
        try {
            stream.write(new InitCommandAck(number, GUID, offers.model(), Packet.VERSION).encode());
            new PtpIpResponder(
                            stream,
                            new PtpIpAnswers(offers, card, dials, this::release),
                            faults,
                            this::remember,
                            this::cut,
                            LockSupport::parkNanos)
                    .run();
        } finally {
            synchronized (this) {
                command = null;
            }
        }
    }

    private void events(PtpIpStream stream, InitEventRequest request) throws IOException {
        synchronized (this) {
            if (command == null || request.connection() != connection) {
                stream.write(new InitFail(InitFail.REJECTED).encode());
                return;
            }
            stream.write(new InitEventAck().encode());
            events = stream;
        }
        try {
            while (true) {
                Packet packet = stream.read();
                faults.waitWhileSilent();
                if (packet instanceof ProbeRequest) {
                    synchronized (this) {
                        probes++;
                    }
                    stream.write(new ProbeResponse().encode());
                }
            }
        } finally {
            synchronized (this) {
                if (events == stream) {
                    events = null;
                }
            }
        }
    }

    private void release(int transaction) {
        Thread release =
                new Thread(
                        () -> {
                            shutter.run();
                            tell(EventCode.CAPTURE_COMPLETE, transaction);
                        },
                        "simulated camera shutter");
        release.setDaemon(true);
        release.start();
    }
}
