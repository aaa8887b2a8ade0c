package lookstep.server.intake;

import java.io.IOException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import lookstep.server.frames.KnownFile;
import lookstep.server.keeping.CopyState;
import lookstep.server.keeping.Original;
import lookstep.server.keeping.SafeKeeping;
import lookstep.server.live.Event.FileMark;
import lookstep.server.live.Event.FrameCopied;
import lookstep.server.live.Frame;
import lookstep.server.live.Link;
import lookstep.server.live.Links;
import lookstep.server.live.Live;
import lookstep.server.live.LiveState;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The frames' files and their second place: what lies there goes into the journal, so that nothing
 * is copied twice and nothing that is missing is forgotten, also after a restart.
 */
public final class FrameCopies implements SafeKeeping.Listener, AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(FrameCopies.class);
    private static final long TRY_AGAIN_NANOS = 2_000_000_000;
    private static final long WORDS_EVERY_NANOS = 200_000_000;

    private final Path folder;
    private final Live live;
    private final Links links;
    private final Runnable changed;
    private final SafeKeeping keeping;
    private final Queue<FrameCopied> unwritten = new ConcurrentLinkedQueue<>();
    private long tryAgainNanos;
    private long wordsNanos = System.nanoTime();
    private volatile Map<Integer, String> words = Map.of();

    /**
     * Asks for what is not copied yet.
     *
     * @param folder where the originals are
     * @param copies the second place
     * @param changed is called when a copy has come about
     */
    public FrameCopies(Path folder, Path copies, Live live, Links links, Runnable changed) {
        this.folder = folder.toAbsolutePath().normalize();
        this.live = live;
        this.links = links;
        this.changed = changed;
        LiveState state = live.state();
        boolean usedBefore = state.frames().stream().anyMatch(f -> !f.copies().isEmpty());
        keeping = new SafeKeeping(this.folder, copies, usedBefore, this);
        for (Frame frame : state.frames()) {
            for (FileMark file : frame.files()) {
                if (!frame.copies().containsKey(file.path())) {
                    add(frame.number(), file);
                }
            }
        }
        links.tell(
                new Link("copies", true, "originals are copied to " + copies + sameDrive(copies)));
    }

    private String sameDrive(Path copies) {
        try {
            return SafeKeeping.onOneDrive(folder, copies)
                    ? ", which is on the same drive as they are: if it fails, both are gone"
                    : "";
        } catch (IOException gone) {
            // the first copy will say so
            return "";
        }
    }

    /** A file of a frame came in. */
    public void add(int number, FileMark file) {
        keeping.add(number, folder.resolve(file.path()));
    }

    /** One step of the loop; returns when it wants the next. */
    public long doWork(long nowNanos) {
        if (!unwritten.isEmpty() && nowNanos - tryAgainNanos >= 0) {
            write(nowNanos);
        }
        long next = keeping.doWork(nowNanos);
        if (nowNanos - wordsNanos >= 0) {
            wordsNanos = nowNanos + WORDS_EVERY_NANOS;
            words = wordsOf(keeping.states());
        }
        return next;
    }

    /** How the copies of frames are that are not all made, by the frame's number. */
    public Map<Integer, String> words() {
        return words;
    }

    private static Map<Integer, String> wordsOf(Map<Original, CopyState> states) {
        Map<Integer, String> words = new LinkedHashMap<>();
        states.forEach(
                (original, state) -> {
                    if (state instanceof CopyState.Waiting) {
                        words.putIfAbsent(original.frame(), "not copied yet");
                    } else if (state instanceof CopyState.Copying) {
                        words.put(original.frame(), "being copied");
                    } else if (state instanceof CopyState.Failed failed) {
                        words.put(original.frame(), "NOT copied: " + failed.words());
                    }
                });
        return words;
    }

    @Override
    public void copied(int frame, Path file, String sha256, Path copy) {
        String path = KnownFile.name(folder, file);
        unwritten.add(new FrameCopied(frame, path, sha256, copy.toString()));
        write(System.nanoTime());
    }

    /** What the journal cannot take now is taken when it has room: the copy is there meanwhile. */
    private void write(long nowNanos) {
        try {
            while (!unwritten.isEmpty()) {
                live.frameCopied(unwritten.peek());
                unwritten.remove();
            }
        } catch (IOException full) {
            LOG.warn("copies are made, and not in the journal yet: {}", full.getMessage());
            tryAgainNanos = nowNanos + TRY_AGAIN_NANOS;
        }
        changed.run();
    }

    @Override
    public void told(boolean up, String says) {
        links.tell(new Link("copies", up, says));
    }

    @Override
    public void close() {
        keeping.close();
    }
}
