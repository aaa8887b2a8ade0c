package lookstep.server.intake;

import java.io.IOException;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.ThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import java.util.function.BiFunction;
import java.util.function.Function;
import lookstep.protocols.image.ExifData;
import lookstep.protocols.image.ExifReader;
import lookstep.server.framecheck.DetailSource;
import lookstep.server.framecheck.Fingerprint;
import lookstep.server.framecheck.FrameChecks;
import lookstep.server.framecheck.FrameReport;
import lookstep.server.framecheck.KeptPicture;
import lookstep.server.framecheck.Taken;
import lookstep.server.frames.PreviewResult.Preview;
import lookstep.server.frames.ShownPixels;
import lookstep.server.live.Event;
import lookstep.server.live.Event.FrameChecked;
import lookstep.server.live.Frame;
import lookstep.server.live.Live;
import lookstep.server.live.LiveState;
import lookstep.server.plan.Look;
import lookstep.server.plan.Shot;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Looks at each frame when its preview is there, on a thread of its own, and puts what is to be
 * said of it into the journal. In a burst only the newest that waits is looked at: what stands
 * beside a picture that nobody looks at any more helps nobody, and the newest must not wait for it.
 */
public final class FrameChecking implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(FrameChecking.class);
    private static final int KEPT_COMPARED = 12;
    private static final int WAITING_MOST = 4;

    private final FrameChecks checks;
    private final Live live;
    private final FramePictures pictures;
    private final Function<String, Optional<Shot>> shots;
    private final BiFunction<LiveState, Shot, Look> looks;
    private final Function<Path, Optional<DetailSource>> details;
    private final ExecutorService thread;

    /**
     * @param shots the plan's, by id
     * @param looks a shot's look, with what was changed on the set
     * @param details an original at full size
     */
    public FrameChecking(
            FrameChecks checks,
            Live live,
            FramePictures pictures,
            Function<String, Optional<Shot>> shots,
            BiFunction<LiveState, Shot, Look> looks,
            Function<Path, Optional<DetailSource>> details) {
        this.checks = checks;
        this.live = live;
        this.pictures = pictures;
        this.shots = shots;
        this.looks = looks;
        this.details = details;
        thread =
                new ThreadPoolExecutor(
                        1,
                        1,
                        0,
                        TimeUnit.SECONDS,
                        new LinkedBlockingQueue<>(WAITING_MOST),
                        r -> {
                            Thread t = new Thread(r, "checks");
                            t.setDaemon(true);
                            return t;
                        },
                        new ThreadPoolExecutor.DiscardOldestPolicy());
    }

    /** The shot that is current now: what its frames will be compared with is made beforehand. */
    public void expect(String shot) {
        thread.execute(
                () ->
                        shots.apply(shot)
                                .ifPresent(s -> checks.expect(s, looks.apply(live.state(), s))));
    }

    /** A frame's preview is there. */
    public void look(int number, Preview preview) {
        thread.execute(() -> looked(number, preview));
    }

    private void looked(int number, Preview preview) {
        try {
            LiveState state = live.state();
            Optional<Frame> frame = state.frame(number);
            Optional<Shot> shot = frame.flatMap(f -> shots.apply(f.shot()));
            if (shot.isEmpty() || frame.get().checked().isPresent()) {
                return;
            }
            Path original = pictures.original(frame.get());
            FrameReport report =
                    checks.check(
                            new Taken(
                                    number,
                                    shot.get(),
                                    looks.apply(state, shot.get()),
                                    exif(original),
                                    ShownPixels.of(preview),
                                    details.apply(original),
                                    kept(state)));
            live.frameChecked(
                    new FrameChecked(number, remarks(report), report.fingerprint().toString()));
        } catch (IOException | RuntimeException e) {
            LOG.warn("frame {} could not be looked at: {}", number, e.toString());
        }
    }

    private static List<Event.Remark> remarks(FrameReport report) {
        return report.remarks().stream()
                .map(
                        r ->
                                new Event.Remark(
                                        r.kind().name().toLowerCase(Locale.ROOT),
                                        r.weight().name().toLowerCase(Locale.ROOT),
                                        r.says()))
                .toList();
    }

    private static ExifData exif(Path original) throws IOException {
        try (SeekableByteChannel channel = Files.newByteChannel(original)) {
            return ExifReader.read(channel).data();
        }
    }

    /** The last ones that the photographer keeps. */
    private List<KeptPicture> kept(LiveState state) {
        List<KeptPicture> kept = new ArrayList<>();
        List<Frame> frames = state.frames();
        for (int i = frames.size() - 1; i >= 0 && kept.size() < KEPT_COMPARED; i--) {
            Frame frame = frames.get(i);
            if (frame.mark() == Frame.Mark.KEPT && frame.checked().isPresent()) {
                String name = shots.apply(frame.shot()).map(Shot::name).orElse("another shot");
                kept.add(
                        new KeptPicture(
                                frame.number(),
                                name,
                                Fingerprint.parse(frame.checked().get().fingerprint())));
            }
        }
        return kept;
    }

    @Override
    public void close() {
        thread.shutdownNow();
        try {
            thread.awaitTermination(2, TimeUnit.SECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
