package lookstep.server.frames;

import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.concurrent.Executor;
import java.util.function.Function;

/**
 * Makes previews on threads of the caller's, the newest frame first: the band looks at the last
 * picture, the ones before may wait. Any thread.
 */
public final class PreviewQueue {
    private final Executor executor;
    private final Function<Path, PreviewResult> maker;
    private final Listener listener;
    private final Deque<Wanted> newestFirst = new ArrayDeque<>();

    private record Wanted(long frameNumber, Path original) {}

    /** Gets each result, on a thread of the executor. */
    public interface Listener {
        /** The preview of a frame is made, or cannot be. */
        void previewed(long frameNumber, PreviewResult result);
    }

    /**
     * Makes a queue without work.
     *
     * @param executor where previews are made; its threads bound how many at once
     * @param maker how, as a rule {@link PreviewMaker#make}
     * @param listener gets the results
     */
    public PreviewQueue(Executor executor, Function<Path, PreviewResult> maker, Listener listener) {
        this.executor = executor;
        this.maker = maker;
        this.listener = listener;
    }

    /** Asks for a preview; returns at once unless the executor runs it on this thread. */
    public void add(long frameNumber, Path original) {
        synchronized (newestFirst) {
            newestFirst.push(new Wanted(frameNumber, original));
        }
        executor.execute(this::makeNewest);
    }

    /** How many still wait. */
    public int waiting() {
        synchronized (newestFirst) {
            return newestFirst.size();
        }
    }

    private void makeNewest() {
        Wanted wanted;
        synchronized (newestFirst) {
            wanted = newestFirst.poll();
        }
        if (wanted != null) {
            listener.previewed(wanted.frameNumber(), maker.apply(wanted.original()));
        }
    }
}
