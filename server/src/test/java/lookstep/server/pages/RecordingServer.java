package lookstep.server.pages;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Function;

/** Serves the viewer's files from the source folder and records what is posted. */
final class RecordingServer implements AutoCloseable {
    /**
     * One POST.
     *
     * @param mark the value of the header that a page of another site cannot send
     */
    record Call(String path, String body, String mark) {}

    /** What a POST is answered with; an empty body is sent without a type. */
    record Answer(int status, String json) {}

    private static final Path VIEWER = Path.of("..", "viewer").toAbsolutePath().normalize();

    final List<Call> calls = new CopyOnWriteArrayList<>();
    private final HttpServer server;
    private final ExecutorService threads = Executors.newCachedThreadPool();
    private volatile Function<Call, Answer> answers = call -> new Answer(204, "");
    private volatile int pushStatus = 404;
    private volatile int rigStatus = 200;
    private volatile String rig = sample("rig");
    final AtomicInteger rigsAsked = new AtomicInteger();
    private volatile CountDownLatch gate = new CountDownLatch(0);
    private volatile CountDownLatch originals = new CountDownLatch(0);

    RecordingServer() throws IOException {
        server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
        server.setExecutor(threads);
        server.createContext("/", this::handle);
        server.start();
    }

    static String sample(String name) throws IOException {
        return Files.readString(VIEWER.resolve("samples").resolve(name + ".json"));
    }

    String url(String path) {
        return "http://127.0.0.1:" + server.getAddress().getPort() + path;
    }

    void answer(Function<Call, Answer> function) {
        answers = function;
    }

    /** The status of a plain GET of the push address. */
    void pushStatus(int status) {
        pushStatus = status;
    }

    /** What is answered to who asks for the rig; the sample if nothing else is said. */
    void rig(int status, String json) {
        rigStatus = status;
        rig = json;
    }

    /** Holds back answers to POSTs, and pictures named held, until the latch is at zero. */
    CountDownLatch hold() {
        gate = new CountDownLatch(1);
        return gate;
    }

    /** Holds back parts of originals until the latch is at zero. */
    CountDownLatch holdOriginals() {
        originals = new CountDownLatch(1);
        return originals;
    }

    private void handle(HttpExchange exchange) throws IOException {
        try (exchange) {
            String path = exchange.getRequestURI().getPath();
            if (exchange.getRequestMethod().equals("POST")) {
                String body =
                        new String(
                                exchange.getRequestBody().readAllBytes(), StandardCharsets.UTF_8);
                Call call =
                        new Call(path, body, exchange.getRequestHeaders().getFirst("X-Lookstep"));
                calls.add(call);
                await();
                Answer answer = answers.apply(call);
                send(exchange, answer.status(), "application/json", answer.json());
            } else if (path.startsWith("/push/")) {
                send(exchange, pushStatus, "text/plain", "");
            } else if (path.equals("/rig")) {
                rigsAsked.incrementAndGet();
                send(exchange, rigStatus, "application/json", rigStatus == 200 ? rig : "");
            } else if (path.matches("/(frames|thumbs|originals)/.*")) {
                if (path.startsWith("/originals/")) {
                    await(originals);
                }
                if (path.contains("held")) {
                    await();
                }
                send(exchange, 200, "image/svg+xml", read(VIEWER.resolve("samples/frame.svg")));
            } else {
                file(exchange, path);
            }
        }
    }

    private void file(HttpExchange exchange, String path) throws IOException {
        boolean page = path.matches("/(next|band|set)");
        String inside = page ? "pages" + path + "/index.html" : path.substring(1);
        Path file = VIEWER.resolve(inside).normalize();
        if (!file.startsWith(VIEWER) || !Files.isRegularFile(file)) {
            send(exchange, 404, "text/plain", "");
            return;
        }
        send(exchange, 200, type(inside), read(file));
    }

    private static String read(Path file) throws IOException {
        return Files.readString(file);
    }

    private static String type(String name) {
        return switch (name.substring(name.lastIndexOf('.') + 1)) {
            case "html" -> "text/html; charset=utf-8";
            case "css" -> "text/css; charset=utf-8";
            case "js" -> "text/javascript; charset=utf-8";
            case "json" -> "application/json";
            case "svg" -> "image/svg+xml";
            default -> throw new IllegalArgumentException("no type for " + name);
        };
    }

    private void await() {
        await(gate);
    }

    private static void await(CountDownLatch latch) {
        try {
            latch.await();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private static void send(HttpExchange exchange, int status, String type, String text)
            throws IOException {
        byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
        if (bytes.length > 0) {
            exchange.getResponseHeaders().set("Content-Type", type);
        }
        exchange.sendResponseHeaders(status, bytes.length == 0 ? -1 : bytes.length);
        if (bytes.length > 0) {
            exchange.getResponseBody().write(bytes);
        }
    }

    @Override
    public void close() {
        gate.countDown();
        server.stop(0);
        threads.shutdownNow();
    }
}
