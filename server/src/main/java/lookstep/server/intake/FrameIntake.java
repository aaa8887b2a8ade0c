package lookstep.server.intake;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentSkipListSet;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import lookstep.protocols.image.ExifData;
import lookstep.server.frames.ArrivedFile;
import lookstep.server.frames.FolderNote;
import lookstep.server.frames.FrameStore;
import lookstep.server.frames.KnownFile;
import lookstep.server.frames.PreviewMaker;
import lookstep.server.frames.PreviewQueue;
import lookstep.server.frames.PreviewResult;
import lookstep.server.frames.PreviewResult.Preview;
import lookstep.server.frames.WatchedFolder;
import lookstep.server.live.Event.FileMark;
import lookstep.server.live.Event.FrameTaken;
import lookstep.server.live.Link;
import lookstep.server.live.Links;
import lookstep.server.live.Live;
import lookstep.server.live.LiveState;
import lookstep.simulator.model.optics.Scales;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * From a file in the watched folder to a frame of the shoot with a preview: in the journal first,
 * then on the pages. A frame that the journal cannot take (a full disk) waits here and is tried
 * again; the original is never touched.
 */
public final class FrameIntake implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(FrameIntake.class);
    private static final int PREVIEWS_KEPT = 40;
    private static final long REST_NANOS = 4_000_000;
    private static final long TRY_AGAIN_NANOS = 2_000_000_000;

    private final Path folder;
    private final Live live;
    private final Links links;
    private final Runnable changed;
    private final FrameStore store;
    private final PreviewQueue previews;
    private final ExecutorService previewThread;
    private final WatchedFolder watched;
    private final Set<Integer> previewed = new ConcurrentSkipListSet<>();
    private final Deque<ArrivedFile> waiting = new ArrayDeque<>();
    private long tryAgainNanos;
    private volatile Optional<String> folderTrouble = Optional.empty();
    private volatile Optional<String> journalTrouble = Optional.empty();
    private volatile Optional<String> remark = Optional.empty();

    /**
     * @param changed is called when a preview is ready
     */
    public FrameIntake(Path folder, Live live, Links links, Runnable changed) throws IOException {
        this.folder = folder;
        this.live = live;
        this.links = links;
        this.changed = changed;
        PreviewMaker maker = new PreviewMaker();
        store = new FrameStore(PREVIEWS_KEPT, maker::make);
        previewThread =
                Executors.newSingleThreadExecutor(
                        r -> {
                            Thread t = new Thread(r, "previews");
                            t.setDaemon(true);
                            return t;
                        });
        previews = new PreviewQueue(previewThread, maker::make, this::previewMade);
        rememberWhatWasThere();
        LiveState state = live.state();
        for (FrameTaken frame : state.frames()) {
            store.add(frame.number(), folder.resolve(frame.file().path()));
        }
        state.newestFrame().ifPresent(this::preview);
        watched = new WatchedFolder(folder, known(state), waiting::add, this::noted);
        tellLink();
    }

    /** One step of the loop; returns when it wants the next. */
    public long doWork(long nowNanos) {
        watched.doWork(nowNanos);
        boolean due = journalTrouble.isEmpty() || nowNanos - tryAgainNanos >= 0;
        if (!waiting.isEmpty() && due) {
            takeWaiting(nowNanos);
        }
        return nowNanos + REST_NANOS;
    }

    /** Previews of this shoot's frames. */
    public FrameStore store() {
        return store;
    }

    /** The newest frame of this state that has a preview. */
    public Optional<FrameTaken> newest(LiveState state) {
        List<FrameTaken> frames = state.frames();
        for (int i = frames.size() - 1; i >= 0; i--) {
            if (previewed.contains(frames.get(i).number())) {
                return Optional.of(frames.get(i));
            }
        }
        return Optional.empty();
    }

    private void rememberWhatWasThere() throws IOException {
        if (live.state().foundBefore().isPresent()) {
            return;
        }
        List<FileMark> before = new ArrayList<>();
        for (KnownFile k : KnownFile.allIn(folder)) {
            before.add(new FileMark(k.name(), k.sizeBytes(), k.modified().toEpochMilli()));
        }
        live.foundBefore(before);
        if (!before.isEmpty()) {
            LOG.info(
                    "{} pictures were in {} before this shoot; they are left out",
                    before.size(),
                    folder);
        }
    }

    private static Set<KnownFile> known(LiveState state) {
        Set<KnownFile> known = new HashSet<>();
        state.foundBefore().orElse(List.of()).forEach(m -> known.add(known(m)));
        state.frames().forEach(f -> known.add(known(f.file())));
        return known;
    }

    private static KnownFile known(FileMark mark) {
        return new KnownFile(
                mark.path(), mark.bytes(), Instant.ofEpochMilli(mark.modifiedEpochMillis()));
    }

    private void takeWaiting(long nowNanos) {
        try {
            while (!waiting.isEmpty()) {
                take(waiting.peek());
                waiting.remove();
            }
            journalTrouble = Optional.empty();
            remark = Optional.empty();
        } catch (IOException e) {
            LOG.error("{} frames wait: {}", waiting.size(), e.getMessage());
            tryAgainNanos = nowNanos + TRY_AGAIN_NANOS;
            journalTrouble =
                    Optional.of(
                            "%d frames wait and the originals are safe: %s; make room on the disk"
                                    .formatted(waiting.size(), e.getMessage()));
        }
        tellLink();
    }

    /** Trouble first, then what is odd, then that all is well. */
    private void tellLink() {
        Optional<String> trouble = folderTrouble.or(() -> journalTrouble);
        links.tell(
                new Link(
                        "camera",
                        trouble.isEmpty(),
                        trouble.or(() -> remark).orElse("frames come in at " + folder)));
    }

    private void take(ArrivedFile file) throws IOException {
        KnownFile mark = KnownFile.of(folder, file);
        LiveState after =
                live.frameTaken(
                        new FileMark(mark.name(), mark.sizeBytes(), mark.modified().toEpochMilli()),
                        file.exif().takenAt().map(Object::toString).orElse(""),
                        words(file.exif()));
        int number = after.newestFrame().orElseThrow().number();
        file.notes().forEach(n -> LOG.info("frame {} ({}): {}", number, mark.name(), n));
        store.add(number, file.path());
        previews.add(number, file.path());
    }

    private void previewMade(long number, PreviewResult result) {
        if (result instanceof Preview) {
            store.put(number, result);
            previewed.add((int) number);
            changed.run();
        } else if (result instanceof PreviewResult.FrameProblem problem) {
            LOG.warn("frame {}: {}", number, problem.words());
            remark = Optional.of("frame %d: %s".formatted(number, problem.words()));
            tellLink();
            if (previewed.isEmpty() && number > 1) {
                // After a restart the newest may be lost; the band shall see the one before.
                preview(live.state().frames().get((int) number - 2));
            }
        }
    }

    private void preview(FrameTaken frame) {
        previews.add(frame.number(), folder.resolve(frame.file().path()));
    }

    private void noted(FolderNote note) {
        LOG.info("{}", note.words());
        switch (note.kind()) {
            case FOLDER_GONE -> folderTrouble = Optional.of(note.words());
            case FOLDER_BACK -> folderTrouble = Optional.empty();
            default -> remark = Optional.of(note.words());
        }
        tellLink();
    }

    /** What the camera was set to, in the words of the trade. */
    static String words(ExifData exif) {
        List<String> words = new ArrayList<>();
        exif.fNumber().ifPresent(n -> words.add(Scales.formatFNumber(n)));
        exif.seconds().ifPresent(s -> words.add(Scales.formatTime(s)));
        exif.iso().ifPresent(i -> words.add("ISO " + i));
        exif.whiteBalanceKelvin()
                .ifPresent(k -> words.add(String.format(Locale.ROOT, "%.0f K", k)));
        return String.join(", ", words);
    }

    @Override
    public void close() {
        watched.close();
        previewThread.shutdownNow();
        try {
            previewThread.awaitTermination(2, TimeUnit.SECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
