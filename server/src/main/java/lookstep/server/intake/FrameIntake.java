package lookstep.server.intake;

import java.io.IOException;
import java.nio.file.InvalidPathException;
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
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.function.Function;
import java.util.function.LongSupplier;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import lookstep.protocols.image.ExifData;
import lookstep.server.frames.ArrivedFile;
import lookstep.server.frames.FolderNote;
import lookstep.server.frames.KnownFile;
import lookstep.server.frames.PreviewResult.FrameProblem;
import lookstep.server.frames.PreviewResult.Preview;
import lookstep.server.frames.WatchedFolder;
import lookstep.server.live.Event.FileMark;
import lookstep.server.live.Frame;
import lookstep.server.live.Link;
import lookstep.server.live.Links;
import lookstep.server.live.Live;
import lookstep.server.live.Live.Arrival;
import lookstep.server.live.LiveState;
import lookstep.server.live.ShotFacts;
import lookstep.simulator.model.optics.Scales;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * From a file in the watched folder to a frame of the shoot: in the journal first, then on the
 * pages. A frame that the journal cannot take (a full disk) waits here and is tried again; the
 * original is never touched.
 */
public final class FrameIntake implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(FrameIntake.class);
    private static final long REST_NANOS = 4_000_000;
    private static final long TRY_AGAIN_NANOS = 2_000_000_000;

    private final Path folder;
    private final Live live;
    private final Links links;
    private final Function<String, ShotFacts> facts;
    private final FramePictures pictures;
    private final WatchedFolder watched;
    private final Deque<Waiting> waiting = new ArrayDeque<>();
    private final List<Taken> takers = new CopyOnWriteArrayList<>();
    private final List<PreviewMade> previewed = new CopyOnWriteArrayList<>();
    private long tryAgainNanos;
    private volatile Optional<String> folderTrouble = Optional.empty();
    private volatile Optional<String> journalTrouble = Optional.empty();
    private volatile Optional<String> remark = Optional.empty();

    private record Waiting(ArrivedFile file, long arrivedEpochMillis) {}

    /** Gets each file of a frame when it is in the journal. */
    @FunctionalInterface
    public interface Taken {
        void file(int number, FileMark file);
    }

    /** Gets each preview, on the thread that made it. */
    @FunctionalInterface
    public interface PreviewMade {
        void made(int number, Preview preview);
    }

    /**
     * @param facts what there is to know of a shot, by its id
     * @param changed is called when there is more to show
     * @param epochMillis the wall clock
     */
    public FrameIntake(
            Path folder,
            Live live,
            Links links,
            Function<String, ShotFacts> facts,
            FramePictures.Makers makers,
            Runnable changed,
            LongSupplier epochMillis)
            throws IOException {
        this.folder = folder;
        this.live = live;
        this.links = links;
        this.facts = facts;
        pictures = new FramePictures(folder, makers, changed, new Previewed());
        rememberWhatWasThere();
        LiveState state = live.state();
        state.frames().forEach(pictures::know);
        state.newestFrame().ifPresent(pictures::show);
        state.showing().of(state.frames(), any -> true).ifPresent(pictures::show);
        watched =
                new WatchedFolder(
                        folder,
                        known(state),
                        file -> waiting.add(new Waiting(file, epochMillis.getAsLong())),
                        this::noted);
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

    /** A way in says that a file lies whole in the folder. Any thread. */
    public void whole(Path file) {
        watched.wholeByTransfer(file);
    }

    /** Pictures of this shoot's frames. */
    public FramePictures pictures() {
        return pictures;
    }

    /** Tells of each file of a frame that comes from now on. */
    public void tell(Taken taker) {
        takers.add(taker);
    }

    /** Tells of each preview that is made from now on. */
    public void tellPreviews(PreviewMade to) {
        previewed.add(to);
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
        state.frames().forEach(f -> f.files().forEach(m -> known.add(known(m))));
        state.leftOut().forEach(m -> known.add(known(m)));
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

    /** In the journal first; whatever goes wrong after that, the file is taken. */
    private void take(Waiting one) throws IOException {
        ArrivedFile file = one.file();
        KnownFile known = KnownFile.of(folder, file);
        FileMark mark =
                new FileMark(known.name(), known.sizeBytes(), known.modified().toEpochMilli());
        if (!isNamed(file, mark)) {
            waiting.remove();
            remark =
                    Optional.of(
                            "%s has a name that this computer cannot write down: rename it, or start Lookstep with a UTF-8 locale"
                                    .formatted(mark.path()));
            LOG.warn("{}", remark.get());
            return;
        }
        Arrival arrival =
                new Arrival(
                        mark,
                        camera(file, mark),
                        file.exif().takenAt().map(Object::toString).orElse(""),
                        words(file.exif()),
                        one.arrivedEpochMillis());
        Optional<String> leftOut = leaveOut(arrival);
        if (leftOut.isPresent()) {
            live.leftOut(mark, leftOut.get());
            waiting.remove();
            pictures.notComing(file.path());
            LOG.info("{}", leftOut.get());
            return;
        }
        List<Frame> frames = live.state().frames();
        Optional<Frame> partner = Releases.partner(frames, mark, arrival.takenAt());
        Frame frame =
                partner.isPresent()
                        ? live.frameJoined(partner.get().number(), arrival)
                                .frame(partner.get().number())
                                .orElseThrow()
                        : live.frameTaken(arrival, facts).newestFrame().orElseThrow();
        waiting.remove();
        try {
            if (partner.isEmpty() || Releases.isJpeg(mark.path())) {
                pictures.show(frame);
            } else {
                pictures.know(frame);
            }
            file.notes()
                    .forEach(n -> LOG.info("frame {} ({}): {}", frame.number(), mark.path(), n));
            takers.forEach(t -> t.file(frame.number(), mark));
        } catch (RuntimeException fault) {
            LOG.error("frame {}: {}", frame.number(), fault.toString(), fault);
        }
    }

    /** Whether the name that goes into the journal leads back to the file. */
    private boolean isNamed(ArrivedFile file, FileMark mark) {
        try {
            return folder.resolve(mark.path()).equals(file.path());
        } catch (InvalidPathException otherLocale) {
            return false;
        }
    }

    /** Why this file is no frame of its own and belongs to none; empty if it is or does. */
    private Optional<String> leaveOut(Arrival arrival) {
        FileMark mark = arrival.file();
        LiveState state = live.state();
        if (Releases.touched(state.frames(), arrival)) {
            return Optional.of(mark.path() + " is as it was; only its time on disk is another");
        }
        return sameBytes(state, mark)
                .map(
                        same ->
                                "%s is the same picture as frame %d, and stays one"
                                        .formatted(mark.path(), same.number()));
    }

    /** What cannot be read now is no reason to hold the frame back. */
    private Optional<Frame> sameBytes(LiveState state, FileMark mark) {
        try {
            return Releases.sameBytes(state.frames(), folder, mark);
        } catch (IOException unreadable) {
            LOG.warn("{} could not be compared: {}", mark.path(), unreadable.getMessage());
            return Optional.empty();
        }
    }

    /** The body's name and number, and the folder that it fills: each body has its own clock. */
    private static String camera(ArrivedFile file, FileMark mark) {
        int slash = mark.path().indexOf('/');
        String filled = slash < 0 ? "" : mark.path().substring(0, slash);
        String body =
                Stream.of(file.exif().bodyModel(), file.exif().bodySerial())
                        .flatMap(Optional::stream)
                        .collect(Collectors.joining(" "));
        return body.isEmpty() || filled.isEmpty() ? body + filled : body + ", " + filled;
    }

    private final class Previewed implements FramePictures.Listener {
        @Override
        public void made(int number, Preview preview) {
            previewed.forEach(p -> p.made(number, preview));
        }

        @Override
        public void failed(int number, FrameProblem problem) {
            remark = Optional.of("frame %d: %s".formatted(number, problem.words()));
            tellLink();
            // After a restart the newest may be lost; the band shall see the one before.
            if (pictures.newest(live.state()).isEmpty()) {
                live.state().frame(number - 1).ifPresent(pictures::show);
            }
        }
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
        pictures.close();
    }
}
