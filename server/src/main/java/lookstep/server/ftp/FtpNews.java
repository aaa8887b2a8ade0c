package lookstep.server.ftp;

import java.nio.file.Path;
import java.time.Clock;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import lookstep.server.gear.WayIn;

/** What the way says to the shoot, one saying after the other. Any thread. */
final class FtpNews {
    private static final DateTimeFormatter TIME =
            DateTimeFormatter.ofPattern("HH:mm:ss", Locale.ROOT);

    private final WayIn.Incoming incoming;
    private final Clock clock;
    private final Map<String, Sent> sent = new LinkedHashMap<>();
    private int port;

    private record Sent(long files, Optional<ZonedDateTime> last) {
        static final Sent NOTHING = new Sent(0, Optional.empty());
    }

    FtpNews(WayIn.Incoming incoming, Clock clock, List<FtpCamera> cameras) {
        this.incoming = incoming;
        this.clock = clock;
        cameras.forEach(camera -> sent.put(camera.name(), Sent.NOTHING));
    }

    synchronized void started(int onPort) {
        port = onPort;
        tellCounts();
    }

    /** A new file is whole. */
    void whole(String camera, Path file) {
        incoming.whole(file);
        count(camera);
    }

    /** A file came that is there already, byte for byte. */
    void again(String camera) {
        count(camera);
    }

    /** Something that does not keep the next picture from coming. */
    synchronized void trouble(String camera, String words) {
        incoming.tell(true, "FTP, camera " + camera + ": " + words);
    }

    /**
     * Somebody was not let in.
     *
     * @param camera the name that was given if it is one of ours; others may be anything
     */
    synchronized void refused(Optional<String> camera, String address) {
        incoming.tell(
                true,
                "FTP: %s was not let in as %s: look at the name and the password in the camera"
                        .formatted(
                                address,
                                camera.map(name -> "camera " + name).orElse("an unknown camera")));
    }

    /** No picture can come until it is mended. */
    synchronized void down(String words) {
        incoming.tell(false, "FTP on port " + port + ": " + words);
    }

    private synchronized void count(String camera) {
        sent.computeIfPresent(
                camera,
                (name, before) ->
                        new Sent(before.files() + 1, Optional.of(ZonedDateTime.now(clock))));
        tellCounts();
    }

    private void tellCounts() {
        StringBuilder words = new StringBuilder("FTP on port " + port + ": ");
        boolean first = true;
        for (Map.Entry<String, Sent> camera : sent.entrySet()) {
            words.append(first ? "" : "; ").append("camera ").append(camera.getKey());
            words.append(words(camera.getValue()));
            first = false;
        }
        incoming.tell(true, words.toString());
    }

    private static String words(Sent sent) {
        return sent.last()
                .map(
                        at ->
                                " sent %d %s, last at %s"
                                        .formatted(
                                                sent.files(),
                                                sent.files() == 1 ? "file" : "files",
                                                TIME.format(at)))
                .orElse(" has sent nothing yet");
    }
}
