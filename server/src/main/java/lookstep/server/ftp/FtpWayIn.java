package lookstep.server.ftp;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.atomic.AtomicBoolean;
import lookstep.server.disk.Disk;
import lookstep.server.gear.WayIn;
import org.apache.ftpserver.ConnectionConfigFactory;
import org.apache.ftpserver.DataConnectionConfigurationFactory;
import org.apache.ftpserver.FtpServer;
import org.apache.ftpserver.FtpServerConfigurationException;
import org.apache.ftpserver.FtpServerFactory;
import org.apache.ftpserver.ftplet.FtpException;
import org.apache.ftpserver.ftplet.Ftplet;
import org.apache.ftpserver.impl.FtpIoSession;
import org.apache.ftpserver.listener.Listener;
import org.apache.ftpserver.listener.ListenerFactory;
import org.apache.ftpserver.ssl.SslConfiguration;
import org.apache.ftpserver.ssl.SslConfigurationFactory;

/**
 * Cameras send their pictures by FTP, each into a folder of its own name. A file is on the disk and
 * under its final name before the camera is told that it came.
 */
public final class FtpWayIn implements WayIn {
    private static final int CONNECTIONS_OF_ONE = 4;
    private static final int FURTHER_CONNECTIONS = 4;
    private static final int MOST_FAILED_LOGINS = 3;
    private static final long STOP_MILLIS = 5000;

    private final FtpSetup setup;
    private final List<FtpCamera> cameras;
    private final Clock clock;
    private final Disk disk;
    private volatile int port;

    /**
     * Opens nothing yet.
     *
     * @param cameras those that may send, at least one, no two of one name
     */
    public FtpWayIn(FtpSetup setup, List<FtpCamera> cameras) {
        this(setup, cameras, Clock.system(ZoneId.systemDefault()), Disk.REAL);
    }

    FtpWayIn(FtpSetup setup, List<FtpCamera> cameras, Clock clock, Disk disk) {
        this.setup = setup;
        this.cameras = List.copyOf(cameras);
        this.clock = clock;
        this.disk = disk;
        this.port = setup.port();
        if (cameras.isEmpty()) {
            throw new IllegalArgumentException("FTP without a camera that may send");
        }
        Set<String> names = new HashSet<>();
        for (FtpCamera camera : cameras) {
            if (!names.add(camera.name().toLowerCase(Locale.ROOT))) {
                throw new IllegalArgumentException("two cameras called " + camera.name());
            }
        }
    }

    @Override
    public String name() {
        return "FTP";
    }

    /** The port on which it listens, once it has been started. */
    public int port() {
        return port;
    }

    @Override
    public AutoCloseable start(Incoming incoming) throws IOException {
        FtpNews news = new FtpNews(incoming, clock, cameras);
        Map<String, CameraFolder> folders = new HashMap<>();
        for (FtpCamera camera : cameras) {
            Path folder = incoming.folder().resolve(camera.name());
            folders.put(camera.name(), new CameraFolder(folder, disk));
        }
        int most = cameras.size() * CONNECTIONS_OF_ONE + FURTHER_CONNECTIONS;
        Listener listener = listener();
        FtpServerFactory factory = new FtpServerFactory();
        factory.addListener("default", listener);
        factory.setUserManager(new CameraUsers(cameras, setup.idle(), news));
        factory.setFileSystem(
                user -> new CameraSession(user.getName(), folders.get(user.getName()), news));
        factory.setCommandFactory(FewCommands.all(setup.tls().isPresent(), setup.tlsRequired()));
        Doorkeeper door = new Doorkeeper(most, setup.tlsRequired());
        Map<String, Ftplet> ftplets = new HashMap<>();
        ftplets.put("door", door);
        factory.setFtplets(ftplets);
        ConnectionConfigFactory connections = new ConnectionConfigFactory();
        connections.setAnonymousLoginEnabled(false);
        connections.setMaxLogins(most);
        connections.setMaxThreads(most);
        connections.setMaxLoginFailures(MOST_FAILED_LOGINS);
        connections.setLoginFailureDelay((int) setup.loginPause().toMillis());
        factory.setConnectionConfig(connections.createConnectionConfig());
        FtpServer server = factory.createServer();
        try {
            server.start();
        } catch (FtpException | FtpServerConfigurationException e) {
            server.stop();
            throw new IOException(
                    "FTP cannot listen on port "
                            + setup.port()
                            + ": end the program that has it, or take another port",
                    e);
        }
        port = listener.getPort();
        news.started(port);
        AtomicBoolean stopped = new AtomicBoolean();
        return () -> {
            if (!stopped.getAndSet(true)) {
                stop(server, listener, door);
            }
        };
    }

    private Listener listener() throws IOException {
        DataConnectionConfigurationFactory data = new DataConnectionConfigurationFactory();
        data.setActiveEnabled(true);
        data.setActiveIpCheck(true);
        data.setPassiveIpCheck(true);
        data.setIdleTime((int) setup.dataIdle().toSeconds());
        if (setup.firstDataPort() > 0) {
            data.setPassivePorts(setup.firstDataPort() + "-" + setup.lastDataPort());
        }
        ListenerFactory factory = new ListenerFactory();
        factory.setPort(setup.port());
        // The library only ever shortens this one, and only if the other is not the same.
        factory.setIdleTimeout((int) setup.idle().toSeconds() + 1);
        if (setup.tls().isPresent()) {
            SslConfiguration tls = tls(setup.tls().get());
            factory.setSslConfiguration(tls);
            data.setSslConfiguration(tls);
        }
        factory.setDataConnectionConfiguration(data.createDataConnectionConfiguration());
        return factory.createListener();
    }

    private static SslConfiguration tls(Path folder) throws IOException {
        Path keys = TlsKeys.in(folder);
        SslConfigurationFactory tls = new SslConfigurationFactory();
        tls.setKeystoreFile(keys.toFile());
        tls.setKeystoreType("PKCS12");
        tls.setKeystorePassword(TlsKeys.PASSWORD);
        tls.setKeyPassword(TlsKeys.PASSWORD);
        tls.setKeyAlias(TlsKeys.ALIAS);
        tls.setSslProtocol("TLSv1.2", "TLSv1.3");
        try {
            return tls.createSslConfiguration();
        } catch (FtpServerConfigurationException e) {
            throw new IOException(
                    keys + " is no key that can be used: delete it, and another is made", e);
        }
    }

    private static void stop(FtpServer server, Listener listener, Doorkeeper door)
            throws InterruptedException {
        // Taking nobody in any more ends all connections too, and the list of them.
        Set<FtpIoSession> sessions = Set.copyOf(listener.getActiveSessions());
        listener.suspend();
        for (FtpIoSession session : sessions) {
            session.closeNow();
            // Held up while a camera is waited for, so on its own.
            Thread closing =
                    new Thread(session.getDataConnection()::closeDataConnection, "ftp-closing");
            closing.setDaemon(true);
            closing.start();
        }
        door.awaitEmpty(STOP_MILLIS);
        server.stop();
    }
}
