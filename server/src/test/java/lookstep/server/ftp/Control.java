package lookstep.server.ftp;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.net.InetAddress;
import java.net.Socket;
import java.net.SocketException;
import java.nio.charset.StandardCharsets;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A control connection whose every line the test writes itself. */
final class Control implements AutoCloseable {
    private static final int PATIENCE_MILLIS = 30_000;
    private static final Pattern EXTENDED_PORT = Pattern.compile("229 .*\\|\\|\\|(\\d+)\\|.*");

    private final Socket socket;
    private final BufferedReader lines;

    Control(int port) throws IOException {
        socket = new Socket(InetAddress.getLoopbackAddress(), port);
        socket.setSoTimeout(PATIENCE_MILLIS);
        lines =
                new BufferedReader(
                        new InputStreamReader(socket.getInputStream(), StandardCharsets.UTF_8));
    }

    void raw(byte[] octets) throws IOException {
        socket.getOutputStream().write(octets);
        socket.getOutputStream().flush();
    }

    /** The last line of a reply; null if the server has hung up. */
    String read() throws IOException {
        String line;
        do {
            line = lines.readLine();
        } while (line != null && !line.matches("\\d{3} .*"));
        return line;
    }

    String ask(String command) throws IOException {
        raw((command + "\r\n").getBytes(StandardCharsets.UTF_8));
        String said = read();
        assertTrue(said != null, command + ": the server has hung up");
        return said;
    }

    String askOrEnd(String command) throws IOException {
        try {
            raw((command + "\r\n").getBytes(StandardCharsets.UTF_8));
            return read();
        } catch (SocketException reset) {
            return null;
        }
    }

    void send(String command, String expected) throws IOException {
        String said = ask(command);
        assertTrue(said.startsWith(expected), command + " was answered " + said);
    }

    void store(String name, byte[] bytes, String expected) throws IOException {
        transfer("STOR " + name, bytes, expected);
    }

    /** What was said before the bytes. */
    String transfer(String command, byte[] bytes, String expected) throws IOException {
        String before;
        try (Socket data = passive()) {
            before = ask(command);
            assertTrue(before.startsWith("150"), command + " was answered " + before);
            data.getOutputStream().write(bytes);
        } catch (SocketException closed) {
            // who refuses need not read to the end
            before = refused(closed, expected);
        }
        String after = read();
        assertTrue(after.startsWith(expected), command + " ended with " + after);
        return before;
    }

    private static String refused(SocketException closed, String expected) throws SocketException {
        if (expected.startsWith("2")) {
            throw closed;
        }
        return "";
    }

    byte[] fetch(String command) throws IOException {
        byte[] bytes;
        try (Socket data = passive()) {
            send(command, "150");
            bytes = data.getInputStream().readAllBytes();
        }
        String after = read();
        assertTrue(after.startsWith("226"), command + " ended with " + after);
        return bytes;
    }

    Socket openData(String command) throws IOException {
        Socket data = passive();
        send(command, "150");
        return data;
    }

    void refuseStore(String name, String expected) throws IOException {
        Socket data = passive();
        try {
            send("STOR " + name, expected);
        } finally {
            data.close();
        }
    }

    void refuse(String command, String expected) throws IOException {
        send(command, expected);
    }

    private Socket passive() throws IOException {
        String said = ask("EPSV");
        Matcher port = EXTENDED_PORT.matcher(said);
        assertTrue(port.matches(), said);
        Socket data = new Socket(InetAddress.getLoopbackAddress(), Integer.parseInt(port.group(1)));
        data.setSoTimeout(PATIENCE_MILLIS);
        return data;
    }

    @Override
    public void close() throws IOException {
        socket.close();
    }
}
