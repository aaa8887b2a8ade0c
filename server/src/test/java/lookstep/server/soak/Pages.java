package lookstep.server.soak;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.WebSocket;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.atomic.AtomicLong;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** What an open page of the crew and one of the band do, without a browser. */
public final class Pages implements AutoCloseable {
    private static final Pattern FRAME =
            Pattern.compile("\"frame\":\\{\"number\":(\\d+),\"url\":\"([^\"]+)\"");

    private final HttpClient http = HttpClient.newHttpClient();
    private final String at;
    private final String crewCookie;
    private final String bandCookie;
    private final AtomicLong newest = new AtomicLong();
    private final AtomicLong pictures = new AtomicLong();
    private final WebSocket band;
    private final WebSocket crew;

    /**
     * Opens both.
     *
     * @param at host and port
     * @param crewCookie as a browser sends it, name and word
     * @param bandCookie the band's
     */
    public Pages(String at, String crewCookie, String bandCookie) {
        this.at = at;
        this.crewCookie = crewCookie;
        this.bandCookie = bandCookie;
        band = open("/push/band", bandCookie, new Band());
        crew = open("/push/crew", crewCookie, new WebSocket.Listener() {});
    }

    private WebSocket open(String path, String cookie, WebSocket.Listener listener) {
        return http.newWebSocketBuilder()
                .header("Cookie", cookie)
                .buildAsync(URI.create("ws://" + at + path), listener)
                .join();
    }

    /** Fetches each picture that it is told of. */
    private final class Band implements WebSocket.Listener {
        private final StringBuilder text = new StringBuilder();

        @Override
        public CompletionStage<?> onText(WebSocket socket, CharSequence data, boolean whole) {
            text.append(data);
            if (whole) {
                Matcher m = FRAME.matcher(text);
                if (m.find() && Long.parseLong(m.group(1)) > newest.get()) {
                    newest.set(Long.parseLong(m.group(1)));
                    fetch(m.group(2));
                }
                text.setLength(0);
            }
            socket.request(1);
            return null;
        }
    }

    private void fetch(String url) {
        CompletableFuture<?> unused =
                http.sendAsync(
                                HttpRequest.newBuilder(URI.create("http://" + at + url))
                                        .header("Cookie", bandCookie)
                                        .build(),
                                HttpResponse.BodyHandlers.ofByteArray())
                        .thenAccept(
                                answer -> {
                                    if (answer.statusCode() == 200 && answer.body().length > 0) {
                                        pictures.incrementAndGet();
                                    }
                                });
    }

    /** A press from this position: one on, or one back; returns when it is answered. */
    public void press(boolean forward, int position) throws IOException, InterruptedException {
        int status =
                http.send(
                                HttpRequest.newBuilder(
                                                URI.create(
                                                        "http://"
                                                                + at
                                                                + (forward ? "/step" : "/back")))
                                        .header("Cookie", crewCookie)
                                        .header("X-Lookstep", "1")
                                        .POST(
                                                HttpRequest.BodyPublishers.ofString(
                                                        "{\"at\":" + position + "}"))
                                        .build(),
                                HttpResponse.BodyHandlers.discarding())
                        .statusCode();
        if (status != 200) {
            throw new IOException("the press was answered by " + status);
        }
    }

    /** The number of the newest frame that the band was told of. */
    public long newest() {
        return newest.get();
    }

    /** How many pictures the band's page got whole. */
    public long pictures() {
        return pictures.get();
    }

    @Override
    public void close() {
        band.abort();
        crew.abort();
    }
}
