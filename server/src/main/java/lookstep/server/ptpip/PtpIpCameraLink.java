package lookstep.server.ptpip;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.nio.channels.Selector;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.TimeUnit;
import lookstep.protocols.ptpip.DeviceInfo;
import lookstep.protocols.ptpip.EventPacket;
import lookstep.server.gear.CameraControl;
import lookstep.server.gear.WayIn;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * A camera in the network, spoken to by PTP/IP (CIPA DC-005): its new pictures come in, and it can
 * be set and released. Only what the open standard says is used; makers' extensions are not.
 *
 * <p>A camera that is gone is tried again for as long as the way is open. What was on its card when
 * it was first reached stays there; what is made while it is out of reach comes later.
 */
public final class PtpIpCameraLink implements WayIn {
    private static final Logger LOG = LoggerFactory.getLogger(PtpIpCameraLink.class);

    /** How the camera's menu shows this computer. */
    private static final String OWN_NAME = "Lookstep";

    private static final long END_MILLIS = 5_000;

    private final CameraAddress address;
    private final UUID guid;
    private final Patience patience;
    private final Dials dials = new Dials(this::wake);
    private final Object lock = new Object();
    private boolean started;
    private Selector waiting;
    private volatile boolean stopping;

    PtpIpCameraLink(CameraAddress address, UUID guid, Patience patience) {
        this.address = address;
        this.guid = guid;
        this.patience = patience;
    }

    /**
     * A link to a camera that need not be there yet.
     *
     * @param address {@code HOST}, {@code HOST:PORT} or {@code [IPV6]:PORT}; without a port 15740
     * @param guid by which cameras know this computer again: always the same for one shoot
     * @throws IllegalArgumentException if the address is none; the message says what to write
     */
    public static PtpIpCameraLink parse(String address, UUID guid) {
        return new PtpIpCameraLink(CameraAddress.parse(address), guid, Patience.USUAL);
    }

    @Override
    public String name() {
        return "camera " + address.words();
    }

    /** Sets and releases this camera, from when the way is started. */
    public CameraControl control() {
        return dials;
    }

    /**
     * {@inheritDoc}
     *
     * @throws IllegalStateException if it was started before: a link is used once
     */
    @Override
    public AutoCloseable start(Incoming incoming) {
        synchronized (lock) {
            if (started) {
                throw new IllegalStateException("started twice");
            }
            started = true;
        }
        Telling telling = new Telling(incoming);
        Landing landing = new Landing(incoming.folder().resolve(SafeName.of(name(), 0, 0)), guid);
        Fetching fetching = new Fetching(landing, incoming, telling, patience);
        Thread thread = new Thread(() -> run(fetching, telling), name());
        thread.setDaemon(true);
        thread.start();
        return () -> {
            stopping = true;
            wake();
            thread.join(END_MILLIS);
        };
    }

    private void wake() {
        synchronized (lock) {
            if (waiting != null) {
                waiting.wakeup();
            }
            lock.notifyAll();
        }
    }

    private void run(Fetching fetching, Telling telling) {
        int failed = 0;
        while (!stopping) {
            boolean[] wasUp = {false};
            try {
                converse(fetching, telling, () -> wasUp[0] = true);
            } catch (LinkDownException e) {
                if (!stopping) {
                    telling.down(e.getMessage());
                }
            } catch (RefusedException e) {
                telling.down(LinkWords.refused("begin", e));
            } catch (IOException | RuntimeException e) {
                LOG.error("{}: {}", name(), e.toString(), e);
                telling.down(LinkWords.ourFault(e));
            }
            dials.down();
            failed = wasUp[0] ? 1 : failed + 1;
            pause(patience.pauseNanos(failed));
        }
    }

    private void pause(long nanos) {
        long until = System.nanoTime() + nanos;
        synchronized (lock) {
            long left = nanos;
            while (!stopping && left > 0) {
                try {
                    TimeUnit.NANOSECONDS.timedWait(lock, left);
                } catch (InterruptedException stopped) {
                    Thread.currentThread().interrupt();
                    stopping = true;
                }
                left = until - System.nanoTime();
            }
        }
    }

    /** One session, from its beginning until it breaks, which throws, or until it is to stop. */
    private void converse(Fetching fetching, Telling telling, Runnable up)
            throws IOException, RefusedException {
        Selector selector = Selector.open();
        synchronized (lock) {
            waiting = selector;
        }
        try (selector;
                Connection connection =
                        Connection.open(
                                new InetSocketAddress(address.host(), address.port()),
                                guid,
                                OWN_NAME,
                                patience,
                                selector,
                                () -> stopping)) {
            Session session = new Session(connection);
            DeviceInfo camera = session.deviceInfo();
            session.open();
            long now = System.nanoTime();
            fetching.begin(session, camera, now);
            dials.up(session, camera, now);
            telling.up(LinkWords.up(camera));
            up.run();
            try {
                work(connection, session, fetching, telling);
            } finally {
                if (stopping) {
                    goodbye(connection, session);
                }
            }
        } finally {
            synchronized (lock) {
                waiting = null;
            }
        }
    }

    private void work(Connection connection, Session session, Fetching fetching, Telling telling)
            throws LinkDownException {
        Pulse pulse = new Pulse(patience);
        while (true) {
            long now = System.nanoTime();
            Optional<EventPacket> event = connection.event();
            while (event.isPresent()) {
                fetching.told(event.get(), now);
                dials.told(event.get(), now);
                event = connection.event();
            }
            if (dials.step(now, telling) || fetching.step(now)) {
                continue;
            }
            long due = pulse.check(connection, session, now);
            connection.waitForEvent(fetching.nextNanos(dials.nextNanos(due)));
        }
    }

    private static void goodbye(Connection connection, Session session) {
        try {
            connection.sayGoodbye();
            session.close();
        } catch (LinkDownException | RefusedException e) {
            // it is over in any case
        }
    }
}
