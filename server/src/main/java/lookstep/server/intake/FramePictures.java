package lookstep.server.intake;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.function.Function;
import lookstep.server.frames.FrameStore;
import lookstep.server.frames.PreviewQueue;
import lookstep.server.frames.PreviewResult;
import lookstep.server.frames.PreviewResult.FrameProblem;
import lookstep.server.frames.PreviewResult.Preview;
import lookstep.server.live.Event.FileMark;
import lookstep.server.live.Frame;
import lookstep.server.live.LiveState;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The pictures that the pages show of the shoot's frames: a small one that the camera put into the
 * file or sent ahead, at once; then the preview. Any thread.
 */
public final class FramePictures implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(FramePictures.class);
    private static final int PREVIEWS_KEPT = 40;
    private static final int THUMBNAILS_KEPT = 200;

    /** What there is to show of a frame. */
    private enum Have {
        STAND_IN,
        PREVIEW
    }

    /**
     * A picture of a file that is still on its way.
     *
     * @param id tells it from others
     * @param file where the file will be
     * @param picture as it came ahead
     */
    public record Early(int id, Path file, Preview picture) {}

    /**
     * How pictures are made of files.
     *
     * @param preview what tablets show
     * @param standIn what is in the file already, small
     */
    public record Makers(
            Function<Path, PreviewResult> preview, Function<Path, Optional<Preview>> standIn) {}

    /** Gets what came of each frame's preview, on the thread that made it. */
    public interface Listener {
        /** A preview is made. */
        void made(int number, Preview preview);

        /** None can be made. */
        void failed(int number, FrameProblem problem);
    }

    private final Path folder;
    private final Makers makers;
    private final Runnable changed;
    private final Listener listener;
    private final FrameStore store;
    private final PreviewQueue queue;
    private final ExecutorService thread;
    private final Map<Integer, Have> have = new ConcurrentHashMap<>();
    private final Set<Integer> wanted = ConcurrentHashMap.newKeySet();
    private final Map<Long, Preview> thumbnails =
            new LinkedHashMap<>(16, 0.75f, true) {
                private static final long serialVersionUID = 1L;

                @Override
                protected boolean removeEldestEntry(Map.Entry<Long, Preview> eldest) {
                    return size() > THUMBNAILS_KEPT;
                }
            };
    private volatile Optional<Early> early = Optional.empty();
    private int earlyOnes;

    /**
     * Knows no frame yet.
     *
     * @param folder where the originals are
     * @param changed is called when there is more to show
     */
    public FramePictures(Path folder, Makers makers, Runnable changed, Listener listener) {
        this.folder = folder;
        this.makers = makers;
        this.changed = changed;
        this.listener = listener;
        store = new FrameStore(PREVIEWS_KEPT, makers.preview());
        thread =
                Executors.newSingleThreadExecutor(
                        r -> {
                            Thread t = new Thread(r, "previews");
                            t.setDaemon(true);
                            return t;
                        });
        queue = new PreviewQueue(thread, makers.preview(), this::previewMade);
    }

    /** Knows where a frame's original is, and shows nothing of it yet. */
    synchronized void know(Frame frame) {
        early = early.filter(e -> !isOf(frame, e.file()));
        try {
            store.add(frame.number(), original(frame));
        } catch (InvalidPathException otherLocale) {
            // written down under another locale: the frame is there, its picture is not
            LOG.warn("frame {}: {}", frame.number(), otherLocale.getMessage());
        }
    }

    /**
     * Shows a frame that came in: what is in the file at once, the preview as soon as it is made.
     */
    public void show(Frame frame) {
        know(frame);
        Optional<Path> known = store.original(frame.number());
        if (known.isEmpty()) {
            return;
        }
        Path original = known.get();
        makers.standIn()
                .apply(original)
                .ifPresent(
                        picture -> {
                            store.putStandIn(frame.number(), picture);
                            keepThumbnail(frame.number(), picture);
                            have.putIfAbsent(frame.number(), Have.STAND_IN);
                        });
        changed.run();
        queue.add(frame.number(), original);
    }

    private boolean isOf(Frame frame, Path file) {
        return frame.files().stream().anyMatch(f -> folder.resolve(f.path()).equals(file));
    }

    /** A small picture came ahead of its file. */
    public synchronized void early(Path file, Preview picture) {
        early = Optional.of(new Early(++earlyOnes, file, picture));
        changed.run();
    }

    /** The file will not come for now: nothing is shown of it any more. */
    public synchronized void forgetEarly() {
        if (early.isPresent()) {
            early = Optional.empty();
            changed.run();
        }
    }

    /** The file will not come: nothing is shown of it any more. */
    public synchronized void notComing(Path file) {
        if (early.filter(e -> e.file().equals(file)).isPresent()) {
            forgetEarly();
        }
    }

    /** The picture of the newest file that is still on its way. */
    public Optional<Early> early() {
        return early;
    }

    /** Where the picture of a frame is made from: what can be decoded, rather than a raw file. */
    public Path original(Frame frame) {
        List<FileMark> files = frame.files();
        return folder.resolve(
                files.stream()
                        .filter(f -> Releases.isJpeg(f.path()))
                        .findFirst()
                        .orElse(files.get(0))
                        .path());
    }

    /**
     * Makes the picture that the band is to see, if it was not shown in this run of the program.
     * Returns at once.
     */
    public void makeForBand(LiveState state) {
        Optional<Frame> seen =
                state.showing()
                        .of(state.frames(), any -> true)
                        .filter(f -> !has(f.number()) && wanted.add(f.number()));
        if (seen.isPresent()) {
            long number = seen.get().number();
            store.original(number).ifPresent(original -> queue.add(number, original));
        }
    }

    /** The preview or what stands in for it, if it is in memory. */
    public Optional<PreviewResult> inMemory(long number) {
        return store.inMemory(number);
    }

    /** Where the picture of the frame of this number is made from. */
    public Optional<Path> original(long number) {
        return store.original(number);
    }

    /** The picture of a frame; made on this thread if it is not in memory. */
    public Optional<PreviewResult> picture(long number) {
        return store.preview(number);
    }

    /**
     * A picture of a frame for a row of many: what the camera put into the file, if it is small.
     */
    public Optional<Preview> thumbnail(long number) {
        synchronized (thumbnails) {
            Preview kept = thumbnails.get(number);
            if (kept != null) {
                return Optional.of(kept);
            }
        }
        Optional<Preview> made =
                store.preview(number)
                        .filter(Preview.class::isInstance)
                        .map(Preview.class::cast)
                        .flatMap(Thumbnails::of);
        made.ifPresent(t -> keepThumbnail(number, t));
        return made;
    }

    private void keepThumbnail(long number, Preview small) {
        if (Math.max(small.widthPixels(), small.heightPixels()) <= Thumbnails.LONG_SIDE_PIXELS) {
            synchronized (thumbnails) {
                thumbnails.put(number, small);
            }
        }
    }

    /** Whether there is anything to show of a frame. */
    public boolean has(int number) {
        return have.containsKey(number);
    }

    /** The newest frame of this state that can be shown. */
    public Optional<Frame> newest(LiveState state) {
        List<Frame> frames = state.frames();
        for (int i = frames.size() - 1; i >= 0; i--) {
            Frame frame = frames.get(i);
            if (frame.mark() != Frame.Mark.OUT && has(frame.number())) {
                return Optional.of(frame);
            }
        }
        return Optional.empty();
    }

    /** The frame that the band is to see. */
    public Optional<Frame> forBand(LiveState state) {
        return state.showing().of(state.frames(), this::has);
    }

    /**
     * Where a frame's picture is. The file's time is in it, so that no browser shows a picture of
     * another shoot, and whether it is the small one, so that it is had again.
     */
    public String url(Frame frame) {
        return "/frames/%d.jpg?v=%d%s"
                .formatted(
                        frame.number(),
                        frame.file().modifiedEpochMillis(),
                        have.get(frame.number()) == Have.STAND_IN ? "&small" : "");
    }

    private void previewMade(long number, PreviewResult result) {
        int frame = (int) number;
        if (result instanceof Preview preview) {
            store.put(number, preview);
            have.put(frame, Have.PREVIEW);
            changed.run();
            listener.made(frame, preview);
        } else if (result instanceof FrameProblem problem) {
            LOG.warn("frame {}: {}", number, problem.words());
            listener.failed(frame, problem);
        }
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
