package lookstep.server.intake;

import java.io.IOException;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.NavigableSet;
import java.util.Optional;
import java.util.concurrent.ConcurrentSkipListSet;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.function.BiFunction;
import java.util.function.Function;
import java.util.function.Supplier;
import lookstep.protocols.image.ExifData;
import lookstep.protocols.image.ExifReader;
import lookstep.server.framecheck.DetailSource;
import lookstep.server.framecheck.Fingerprint;
import lookstep.server.framecheck.FrameChecks;
import lookstep.server.framecheck.FrameReport;
import lookstep.server.framecheck.KeptPicture;
import lookstep.server.framecheck.Taken;
import lookstep.server.frames.PreviewResult;
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
 * Looks at each frame when its preview is there, on a thread of its own, the newest first, and puts
 * what is to be said of it into the journal. A frame that turns out to be of another shot is looked
 * at again.
 */
public final class FrameChecking implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(FrameChecking.class);
    private static final int KEPT_COMPARED = 12;
    private static final long END_SECONDS = 5;

    private final Supplier<FrameChecks> checks;
    private final Live live;
    private final FramePictures pictures;
    private final Function<String, Optional<Shot>> shots;
    private final BiFunction<LiveState, Shot, Look> looks;
    private final Function<Path, Optional<DetailSource>> details;
    private final ExecutorService thread;
    private final NavigableSet<Integer> due = new ConcurrentSkipListSet<>();
    private volatile List<Frame> seen = List.of();
    private volatile boolean closing;

    /**
     * @param checks those of the plan as it is now
     * @param shots the plan's, by id
     * @param looks a shot's look, with what was changed on the set
     * @param details an original at full size
     */
    public FrameChecking(
            Supplier<FrameChecks> checks,
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
                Executors.newSingleThreadExecutor(
                        r -> {
                            Thread t = new Thread(r, "checks");
                            t.setDaemon(true);
                            return t;
                        });
    }

    /** The shot that is current now: what its frames will be compared with is made beforehand. */
    public void expect(String shot) {
        run(
                () ->
                        shots.apply(shot)
                                .ifPresent(
                                        s -> checks.get().expect(s, looks.apply(live.state(), s))));
    }

    /** A frame's preview is there. */
    public void look(int number) {
        due.add(number);
        run(this::lookAtNewest);
    }

    /** Frames that have become another shot's are looked at again. Returns at once. */
    public void watch(LiveState state) {
        List<Frame> before = seen;
        seen = state.frames();
        for (int i = 0; i < before.size(); i++) {
            Frame now = state.frames().get(i);
            if (!now.shot().equals(before.get(i).shot())) {
                look(now.number());
            }
        }
    }

    private void run(Runnable work) {
        try {
            thread.execute(work);
        } catch (RejectedExecutionException ending) {
            LOG.debug("no more checks: the program ends");
        }
    }

    private void lookAtNewest() {
        Integer number = due.pollLast();
        if (number == null || closing) {
            return;
        }
        try {
            look(live.state(), number);
        } catch (IOException | RuntimeException e) {
            LOG.warn("frame {} could not be looked at: {}", number, e.toString());
        }
    }

    private void look(LiveState state, int number) throws IOException {
        Optional<Frame> frame = state.frame(number);
        Optional<Shot> shot = frame.flatMap(f -> shots.apply(f.shot()));
        if (shot.isEmpty() || frame.get().checked().isPresent()) {
            return;
        }
        Optional<PreviewResult> preview = pictures.picture(number);
        if (!(preview.orElse(null) instanceof Preview picture)) {
            return;
        }
        Path original = pictures.original(frame.get());
        FrameReport report =
                checks.get()
                        .check(
                                new Taken(
                                        number,
                                        shot.get(),
                                        looks.apply(state, shot.get()),
                                        exif(original),
                                        ShownPixels.of(picture),
                                        details.apply(original),
                                        kept(state)));
        Optional<Frame> now = live.state().frame(number);
        if (now.filter(f -> f.shot().equals(frame.get().shot())).isPresent()) {
            live.frameChecked(
                    new FrameChecked(number, remarks(report), report.fingerprint().toString()));
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

    /** Without an interrupt, which in the middle of a write would close the journal. */
    @Override
    public void close() {
        closing = true;
        thread.shutdown();
        try {
            thread.awaitTermination(END_SECONDS, TimeUnit.SECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
