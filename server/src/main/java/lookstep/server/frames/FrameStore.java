package lookstep.server.frames;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import java.util.function.Function;

/**
 * Previews by frame number. Keeps the newest in memory; an older one is made again from its
 * original when it is asked for, once for all who ask at the same time. Any thread.
 */
public final class FrameStore {
    /** How many previews that were made again are kept for whoever pages back. */
    private static final int KEPT_OLD = 4;

    private final int keep;
    private final Function<Path, PreviewResult> maker;
    private final Map<Long, Path> originals = new HashMap<>();
    private final TreeMap<Long, PreviewResult> newest = new TreeMap<>();
    private final TreeMap<Long, PreviewResult> standIns = new TreeMap<>();
    private final Map<Long, FutureTask<PreviewResult>> old =
            new LinkedHashMap<>(16, 0.75f, true) {
                private static final long serialVersionUID = 1L;

                @Override
                protected boolean removeEldestEntry(
                        Map.Entry<Long, FutureTask<PreviewResult>> eldest) {
                    return size() > KEPT_OLD;
                }
            };

    /**
     * An empty store.
     *
     * @param keep how many of the newest previews stay in memory, at least 1
     * @param maker how a preview is made again, as a rule {@link PreviewMaker#make}
     */
    public FrameStore(int keep, Function<Path, PreviewResult> maker) {
        if (keep < 1) {
            throw new IllegalArgumentException("keep at least one preview, not " + keep);
        }
        this.keep = keep;
        this.maker = maker;
    }

    /** Tells where the original of a frame is; a number names one frame for good. */
    public synchronized void add(long frameNumber, Path original) {
        originals.put(frameNumber, original);
    }

    /** Where the original of a frame is. */
    public synchronized Optional<Path> original(long frameNumber) {
        return Optional.ofNullable(originals.get(frameNumber));
    }

    /** The preview of a frame or its stand-in, if there is one in memory. */
    public synchronized Optional<PreviewResult> inMemory(long frameNumber) {
        PreviewResult kept = newest.get(frameNumber);
        return Optional.ofNullable(kept == null ? standIns.get(frameNumber) : kept);
    }

    /** Keeps a small picture until the preview is there; the oldest goes if there are too many. */
    public synchronized void putStandIn(long frameNumber, PreviewResult small) {
        standIns.put(frameNumber, small);
        while (standIns.size() > keep) {
            standIns.pollFirstEntry();
        }
    }

    /** Keeps what was made of a frame; the oldest goes if there are too many. */
    public synchronized void put(long frameNumber, PreviewResult result) {
        standIns.remove(frameNumber);
        newest.put(frameNumber, result);
        while (newest.size() > keep) {
            newest.pollFirstEntry();
        }
    }

    /**
     * The preview of a frame, its stand-in while it is being made, or why there is none. Decodes on
     * the calling thread if it is no longer, or not yet, in memory.
     *
     * @return empty for a number that was never added
     */
    public Optional<PreviewResult> preview(long frameNumber) {
        FutureTask<PreviewResult> again;
        synchronized (this) {
            PreviewResult kept = newest.get(frameNumber);
            if (kept == null) {
                kept = standIns.get(frameNumber);
            }
            if (kept != null) {
                return Optional.of(kept);
            }
            Path original = originals.get(frameNumber);
            if (original == null) {
                return Optional.empty();
            }
            again =
                    old.computeIfAbsent(
                            frameNumber, n -> new FutureTask<>(() -> maker.apply(original)));
        }
        again.run();
        try {
            PreviewResult result = again.get();
            if (result instanceof PreviewResult.FrameProblem) {
                // Such as a drive that is unplugged: the next who asks tries afresh.
                synchronized (this) {
                    old.remove(frameNumber, again);
                }
            }
            return Optional.of(result);
        } catch (InterruptedException stopped) {
            Thread.currentThread().interrupt();
            return Optional.empty();
        } catch (ExecutionException e) {
            throw new IllegalStateException(
                    "making the preview of frame " + frameNumber + " again", e.getCause());
        }
    }

    /** How many previews are in memory without those made again. */
    public synchronized int kept() {
        return newest.size();
    }
}
