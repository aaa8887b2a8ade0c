package lookstep.simulator.gear;

import java.io.FileInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * Reads a terminal's device node without ever waiting for it.
 *
 * <p>A surprise: a process that leads its session and has no terminal (a service, the first process
 * of a container) gets the first terminal it opens as its own, and is sent SIGHUP when that one
 * goes, which ends a JVM. Java cannot open with O_NOCTTY, so there a {@code cat} reads the node in
 * this process's place.
 */
final class NodeReader implements AutoCloseable {
    private static final Path OWN_STATE = Path.of("/proc/self/stat");

    private final InputStream in;
    private final Process cat;

    private NodeReader(InputStream in, Process cat) {
        this.in = in;
        this.cat = cat;
    }

    static NodeReader open(Path node) throws IOException {
        // Other systems than Linux keep no such file; there the node is simply opened.
        if (!Files.exists(OWN_STATE) || !wouldAdoptTerminal(Files.readString(OWN_STATE))) {
            return new NodeReader(new FileInputStream(node.toFile()), null);
        }
        if (!Files.exists(node)) {
            throw new IOException("not there: " + node);
        }
        Process cat =
                new ProcessBuilder("cat", node.toString())
                        .redirectError(ProcessBuilder.Redirect.DISCARD)
                        .start();
        return new NodeReader(cat.getInputStream(), cat);
    }

    /**
     * Whether a process takes a terminal it opens as its own.
     *
     * @param state the text of {@code /proc/PID/stat}, fields as in proc(5): pid, (name), state,
     *     parent, group, session, terminal
     */
    static boolean wouldAdoptTerminal(String state) {
        String pid = state.substring(0, state.indexOf(' '));
        String[] afterName = state.substring(state.lastIndexOf(')') + 2).split(" ", 6);
        return afterName[3].equals(pid) && afterName[4].equals("0");
    }

    /**
     * How many bytes wait.
     *
     * @throws IOException if the node has gone
     */
    int available() throws IOException {
        int waiting = in.available();
        if (waiting == 0 && cat != null && !cat.isAlive()) {
            throw new IOException("the node has gone");
        }
        return waiting;
    }

    /** Reads bytes that wait; never more than {@link #available}, so that it returns at once. */
    int read(byte[] into, int count) throws IOException {
        return in.read(into, 0, count);
    }

    @Override
    public void close() {
        if (cat != null) {
            cat.destroyForcibly();
        }
        try {
            in.close();
        } catch (IOException gone) {
            // It went before we let go of it.
        }
    }
}
