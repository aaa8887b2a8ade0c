package lookstep.simulator.gear;

import java.io.IOException;
import java.io.OutputStream;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.locks.LockSupport;
import java.util.function.LongConsumer;
import javax.net.ServerSocketFactory;
import javax.net.SocketFactory;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLSocket;
import javax.net.ssl.TrustManager;
import org.apache.commons.net.ftp.FTP;
import org.apache.commons.net.ftp.FTPClient;
import org.apache.commons.net.ftp.FTPReply;
import org.apache.commons.net.ftp.FTPSClient;
import org.apache.commons.net.util.TrustManagerUtils;

/**
 * Sends pictures by FTP as a camera's own sender does, as LS_0001.JPG and counting up, over one
 * connection that is made anew when it is gone. One thread at a time.
 */
public final class FtpUploader implements Transfer, AutoCloseable {
    private static final int PIECE_BYTES = 1 << 16;
    private static final int PATIENCE_MILLIS = 20_000;

    /** Which end makes the data connection (RFC 959, 3.2). */
    public enum Data {
        /** The camera connects to the server. */
        PASSIVE,
        /** The server connects to the camera. */
        ACTIVE
    }

    /** What can be read on the way. */
    public enum Privacy {
        /** Everything. */
        PLAIN,
        /** Nothing: AUTH TLS, then PROT P (RFC 4217). Any certificate will do. */
        TLS
    }

    /** How a file gets its name. */
    public enum Delivery {
        /** Under its final name from the start. */
        STRAIGHT,
        /** Under a temporary name, renamed when it is whole. */
        RENAMED
    }

    /**
     * How the camera was set up.
     *
     * @param host name or address of the server
     * @param port of its control connection
     * @param user the camera's name
     * @param password of the camera
     * @param data which end connects
     * @param privacy whether in the clear
     * @param delivery under which name at first
     */
    public record Setup(
            String host,
            int port,
            String user,
            String password,
            Data data,
            Privacy privacy,
            Delivery delivery) {
        /** Without the password. */
        @Override
        public String toString() {
            return "ftp://" + user + "@" + host + ":" + port;
        }
    }

    /** Something that keeps hold of the data connection, so that it can be broken. */
    private interface Held {
        FTPClient client();

        Optional<Socket> data();
    }

    private final Setup setup;
    private final LongConsumer pauseNanos;
    private Optional<Held> connection = Optional.empty();
    private long number;
    private double nextPart = 1;
    private int pieceBytes = PIECE_BYTES;
    private long pause;

    /**
     * Connects with the first picture.
     *
     * @param firstNumber of its names, 1 or more
     * @param pauseNanos waits so many nanoseconds, for {@link Fault.SlowWriter}
     */
    public FtpUploader(Setup setup, long firstNumber, LongConsumer pauseNanos) {
        this.setup = setup;
        this.number = firstNumber;
        this.pauseNanos = pauseNanos;
    }

    /** One that begins with LS_0001 and really waits when it is slow. */
    public FtpUploader(Setup setup) {
        this(setup, 1, LockSupport::parkNanos);
    }

    @Override
    public Path send(List<CameraFile> files) throws IOException {
        long now = number++;
        for (CameraFile file : files) {
            send(nameOf(now, file), file.bytes());
        }
        return Path.of(nameOf(now, files.get(0)));
    }

    private static String nameOf(long number, CameraFile file) {
        return String.format(Locale.ROOT, "LS_%04d.%s", number, file.ending());
    }

    private void send(String name, byte[] bytes) throws IOException {
        Held held = connected();
        FTPClient client = held.client();
        String first = setup.delivery() == Delivery.RENAMED ? name + ".tmp" : name;
        int count = (int) (bytes.length * nextPart);
        boolean whole = count == bytes.length;
        nextPart = 1;
        try {
            OutputStream out = client.storeFileStream(first);
            if (out == null) {
                throw refused(client, first + " was refused");
            }
            inPieces(out, bytes, count);
            if (!whole) {
                out.flush();
                breakOff(held);
                return;
            }
            out.close();
            if (!client.completePendingCommand()) {
                throw refused(client, first + " was not taken");
            }
            if (!first.equals(name) && !client.rename(first, name)) {
                throw refused(client, first + " was not renamed");
            }
        } catch (IOException e) {
            close();
            throw new IOException(name + " was not sent to " + setup + ": " + e.getMessage(), e);
        }
    }

    private void inPieces(OutputStream out, byte[] bytes, int count) throws IOException {
        for (int at = 0; at < count; at += pieceBytes) {
            out.write(bytes, at, Math.min(pieceBytes, count - at));
            if (pause > 0 && at + pieceBytes < count) {
                out.flush();
                pauseNanos.accept(pause);
            }
        }
    }

    /** The battery is out: the connection is reset, without the orderly end that means "whole". */
    private void breakOff(Held held) throws IOException {
        Socket data = held.data().orElseThrow();
        data.setSoLinger(true, 0);
        data.close();
        close();
    }

    @Override
    public void misbehave(Fault.OfCamera fault) {
        if (fault instanceof Fault.HalfFile half) {
            nextPart = half.part();
        } else if (fault instanceof Fault.SlowWriter slow) {
            pieceBytes = slow.pieceBytes();
            pause = slow.pauseNanos();
        } else {
            throw new IllegalArgumentException("sending a file cannot do this: " + fault);
        }
    }

    @Override
    public void mend() {
        nextPart = 1;
        pieceBytes = PIECE_BYTES;
        pause = 0;
    }

    private Held connected() throws IOException {
        if (connection.isPresent() && answers(connection.get().client())) {
            return connection.get();
        }
        close();
        Held fresh = setup.privacy() == Privacy.TLS ? OverTls.make() : new InTheClear();
        FTPClient client = fresh.client();
        try {
            logIn(client);
        } catch (IOException e) {
            client.disconnect();
            throw new IOException(setup + " cannot be reached: " + e.getMessage(), e);
        }
        connection = Optional.of(fresh);
        return fresh;
    }

    private void logIn(FTPClient client) throws IOException {
        client.setConnectTimeout(PATIENCE_MILLIS);
        client.setDefaultTimeout(PATIENCE_MILLIS);
        client.setDataTimeout(Duration.ofMillis(PATIENCE_MILLIS));
        client.setControlEncoding(StandardCharsets.UTF_8.name());
        client.connect(setup.host(), setup.port());
        if (!FTPReply.isPositiveCompletion(client.getReplyCode())) {
            throw refused(client, "no greeting");
        }
        if (!client.login(setup.user(), setup.password())) {
            throw refused(client, "the login was refused");
        }
        if (client instanceof OverTls secured) {
            secured.protectData();
        }
        client.setFileType(FTP.BINARY_FILE_TYPE);
        if (setup.data() == Data.PASSIVE) {
            client.enterLocalPassiveMode();
        } else {
            client.enterLocalActiveMode();
        }
    }

    private static boolean answers(FTPClient client) {
        try {
            return client.isConnected() && client.sendNoOp();
        } catch (IOException gone) {
            return false;
        }
    }

    private static IOException refused(FTPClient client, String what) {
        String said = client.getReplyString();
        return new IOException(what + (said == null ? "" : " (" + said.strip() + ")"));
    }

    /** Ends the connection; the next picture makes another. */
    @Override
    public void close() {
        Optional<Held> ending = connection;
        connection = Optional.empty();
        try {
            if (ending.isPresent()) {
                ending.get().client().disconnect();
            }
        } catch (IOException alreadyGone) {
            // That is what was wanted.
        }
    }

    private static final class InTheClear extends FTPClient implements Held {
        private Optional<Socket> data = Optional.empty();

        @Override
        protected Socket _openDataConnection_(String command, String argument) throws IOException {
            data = Optional.ofNullable(super._openDataConnection_(command, argument));
            return data.orElse(null);
        }

        @Override
        public FTPClient client() {
            return this;
        }

        @Override
        public Optional<Socket> data() {
            return data;
        }
    }

    /**
     * Makes plain data sockets and puts TLS on top itself: a TLS socket says an orderly goodbye
     * whenever it is closed, and a camera without a battery says none.
     */
    private static final class OverTls extends FTPSClient implements Held {
        private final SSLContext context;
        private Optional<Socket> data = Optional.empty();

        private OverTls(SSLContext context) {
            super(false, context);
            this.context = context;
        }

        static OverTls make() throws IOException {
            try {
                SSLContext context = SSLContext.getInstance("TLS");
                TrustManager any = TrustManagerUtils.getAcceptAllTrustManager();
                context.init(null, new TrustManager[] {any}, null);
                OverTls client = new OverTls(context);
                client.setTrustManager(any);
                return client;
            } catch (GeneralSecurityException e) {
                throw new IOException("this Java has no TLS", e);
            }
        }

        void protectData() throws IOException {
            execPBSZ(0);
            execPROT("P");
            setSocketFactory(SocketFactory.getDefault());
            setServerSocketFactory(ServerSocketFactory.getDefault());
        }

        @Override
        protected Socket _openDataConnection_(String command, String argument) throws IOException {
            data = Optional.ofNullable(super._openDataConnection_(command, argument));
            if (data.isEmpty()) {
                return null;
            }
            Socket plain = data.get();
            SSLSocket secured =
                    (SSLSocket)
                            context.getSocketFactory()
                                    .createSocket(
                                            plain,
                                            plain.getInetAddress().getHostAddress(),
                                            plain.getPort(),
                                            true);
            secured.setUseClientMode(true);
            secured.startHandshake();
            return secured;
        }

        @Override
        public FTPClient client() {
            return this;
        }

        @Override
        public Optional<Socket> data() {
            return data;
        }
    }
}
