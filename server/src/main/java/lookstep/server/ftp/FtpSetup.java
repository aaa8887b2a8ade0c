package lookstep.server.ftp;

import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;

/**
 * How the server is set up.
 *
 * @param port on which cameras connect, 1 to 65535; 0 takes a free one. Ports below 1024, such as
 *     the usual 21, need special rights on many systems
 * @param firstDataPort of those that passive transfers use, for a firewall; 0 takes free ones
 * @param lastDataPort the last of them; 0 together with the first
 * @param tls folder of the server's key, made at the first start; empty for no TLS
 * @param tlsRequired whether a camera that does not ask for TLS is turned away
 * @param idle after this a camera that says nothing is disconnected; whole seconds
 * @param dataIdle after this a transfer in which nothing moves is broken off; whole seconds
 * @param loginPause before a wrong password is answered
 */
public record FtpSetup(
        int port,
        int firstDataPort,
        int lastDataPort,
        Optional<Path> tls,
        boolean tlsRequired,
        Duration idle,
        Duration dataIdle,
        Duration loginPause) {
    /** The port unless another is asked for. */
    public static final int PORT = 2121;

    /** Passive transfers use the ports from here on. */
    public static final int FIRST_DATA_PORT = 2130;

    /** Passive transfers use the ports up to here: one for each transfer under way. */
    public static final int LAST_DATA_PORT = 2161;

    private static final Duration USUAL_IDLE = Duration.ofMinutes(10);
    private static final Duration USUAL_DATA_IDLE = Duration.ofSeconds(20);
    private static final Duration USUAL_LOGIN_PAUSE = Duration.ofSeconds(1);

    public FtpSetup {
        if (port < 0 || port > 65535) {
            throw new IllegalArgumentException("port " + port + " is not within 0 to 65535");
        }
        if (firstDataPort < 0 || lastDataPort > 65535 || firstDataPort > lastDataPort) {
            throw new IllegalArgumentException(
                    "data ports " + firstDataPort + " to " + lastDataPort + " are no range");
        }
        if (tlsRequired && tls.isEmpty()) {
            throw new IllegalArgumentException("TLS is required but has no folder for its key");
        }
        if (idle.toSeconds() < 1 || dataIdle.toSeconds() < 1) {
            throw new IllegalArgumentException(
                    "idle times of less than a second: " + idle + ", " + dataIdle);
        }
    }

    /** The usual ports and times. */
    public static FtpSetup usual(Optional<Path> tls, boolean tlsRequired) {
        return new FtpSetup(
                PORT,
                FIRST_DATA_PORT,
                LAST_DATA_PORT,
                tls,
                tlsRequired,
                USUAL_IDLE,
                USUAL_DATA_IDLE,
                USUAL_LOGIN_PAUSE);
    }

    /** The same on other ports. */
    public FtpSetup on(int newPort, int newFirstDataPort, int newLastDataPort) {
        return new FtpSetup(
                newPort,
                newFirstDataPort,
                newLastDataPort,
                tls,
                tlsRequired,
                idle,
                dataIdle,
                loginPause);
    }
}
