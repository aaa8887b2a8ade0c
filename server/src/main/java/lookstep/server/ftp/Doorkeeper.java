package lookstep.server.ftp;

import java.io.IOException;
import java.util.Locale;
import java.util.Set;
import org.apache.ftpserver.ftplet.DefaultFtpReply;
import org.apache.ftpserver.ftplet.DefaultFtplet;
import org.apache.ftpserver.ftplet.FtpException;
import org.apache.ftpserver.ftplet.FtpRequest;
import org.apache.ftpserver.ftplet.FtpSession;
import org.apache.ftpserver.ftplet.FtpletResult;

/** Who may come in: so many connections at once, and no name in the clear where TLS is required. */
final class Doorkeeper extends DefaultFtplet {
    private static final Set<String> OF_A_LOGIN = Set.of("USER", "PASS");

    /** The library sets the camera's own time once it has logged in. */
    private static final int SECONDS_TO_LOG_IN = 60;

    private final int mostConnections;
    private final boolean tlsRequired;
    private int connections;

    Doorkeeper(int mostConnections, boolean tlsRequired) {
        this.mostConnections = mostConnections;
        this.tlsRequired = tlsRequired;
    }

    /** Waits until all who came in have gone. */
    synchronized void awaitEmpty(long millis) throws InterruptedException {
        long end = System.nanoTime() + millis * 1_000_000;
        while (connections > 0) {
            long left = (end - System.nanoTime()) / 1_000_000;
            if (left <= 0) {
                return;
            }
            wait(left);
        }
    }

    private synchronized int count(int change) {
        connections += change;
        notifyAll();
        return connections;
    }

    @Override
    public FtpletResult onConnect(FtpSession session) throws FtpException {
        session.setMaxIdleTime(SECONDS_TO_LOG_IN);
        if (count(1) <= mostConnections) {
            return FtpletResult.DEFAULT;
        }
        session.write(new DefaultFtpReply(421, "Too many connections: try again later."));
        return FtpletResult.DISCONNECT;
    }

    @Override
    public FtpletResult onDisconnect(FtpSession session) {
        try {
            if (session.getFileSystemView() instanceof CameraSession camera) {
                camera.ended();
            }
        } finally {
            count(-1);
        }
        return FtpletResult.DEFAULT;
    }

    @Override
    public FtpletResult beforeCommand(FtpSession session, FtpRequest request)
            throws FtpException, IOException {
        String command = request.getCommand().toUpperCase(Locale.ROOT);
        if (tlsRequired && OF_A_LOGIN.contains(command) && !session.isSecure()) {
            session.write(new DefaultFtpReply(530, "TLS is required here: AUTH TLS comes first."));
            return FtpletResult.SKIP;
        }
        if (session.getFileSystemView() instanceof CameraSession camera) {
            camera.before(command);
        }
        return FtpletResult.DEFAULT;
    }
}
