package lookstep.simulator.gear;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;

/** A port of this machine that others of this machine connect to; each connection has a thread. */
final class TcpListener implements AutoCloseable {
    private static final int WAITING = 16;
    private static final long END_MILLIS = 5_000;

    private final ServerSocket server;
    private final Conversation conversation;
    private final String name;
    private Thread accepting;
    private final Set<Socket> connected = ConcurrentHashMap.newKeySet();

    /** What is said on one connection, from its beginning to its end. */
    interface Conversation {
        /** Returns, or throws, when it is over; the connection is then closed. */
        void with(Socket socket) throws IOException;
    }

    private TcpListener(ServerSocket server, String name, Conversation conversation) {
        this.server = server;
        this.name = name;
        this.conversation = conversation;
    }

    /**
     * Listens.
     *
     * @param port 0 for any free one, see {@link #address}
     * @param name of the threads
     * @throws IOException if the port cannot be had
     */
    static TcpListener start(int port, String name, Conversation conversation) throws IOException {
        ServerSocket server = new ServerSocket();
        try {
            server.bind(new InetSocketAddress(InetAddress.getLoopbackAddress(), port), WAITING);
        } catch (IOException e) {
            server.close();
            throw e;
        }
        TcpListener listener = new TcpListener(server, name, conversation);
        listener.accepting = begin(listener::accept, name);
        return listener;
    }

    private static Thread begin(Runnable work, String name) {
        Thread thread = new Thread(work, name);
        thread.setDaemon(true);
        thread.start();
        return thread;
    }

    InetSocketAddress address() {
        return (InetSocketAddress) server.getLocalSocketAddress();
    }

    /** Cuts all connections; others may come. */
    void cut() {
        connected.forEach(TcpListener::cut);
    }

    private void accept() {
        while (!server.isClosed()) {
            try {
                Socket socket = server.accept();
                connected.add(socket);
                if (server.isClosed()) {
                    cut(socket);
                }
                begin(() -> converse(socket), name + " connection");
            } catch (IOException closed) {
                // closed, or no more files may be open: whoever connects will try again
            }
        }
    }

    private void converse(Socket socket) {
        try (socket) {
            conversation.with(socket);
        } catch (IOException over) {
            // the other end went, or this one was cut
        } finally {
            connected.remove(socket);
        }
    }

    private static void cut(Socket socket) {
        try {
            socket.close();
        } catch (IOException e) {
            // a socket that does not close is gone all the same
        }
    }

    @Override
    public void close() {
        try {
            server.close();
        } catch (IOException e) {
            // no more are let in all the same
        }
        cut();
        try {
            // the port is free only when nobody waits on it any more
            accepting.join(END_MILLIS);
        } catch (InterruptedException stopped) {
            Thread.currentThread().interrupt();
        }
    }
}
