package lookstep.server.ptpip;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import lookstep.server.gear.WayIn;

/** What a way in said, in order, and a way to wait for it. */
final class Received implements WayIn.Incoming {
    /** Generous: a machine under load may take its time; a good one does not need it. */
    private static final long DEADLINE_NANOS = TimeUnit.SECONDS.toNanos(30);

    private final Path folder;
    private final List<String> said = new ArrayList<>();
    private final List<Path> whole = new ArrayList<>();
    private final List<Path> early = new ArrayList<>();
    private final List<byte[]> thumbs = new ArrayList<>();
    private final List<String> order = new ArrayList<>();
    private boolean up;
    private int changes;

    Received(Path folder) {
        this.folder = folder;
    }

    @Override
    public Path folder() {
        return folder;
    }

    @Override
    public synchronized void whole(Path file) {
        whole.add(file);
        order.add("whole " + file.getFileName());
        notifyAll();
    }

    @Override
    public synchronized void early(Path file, byte[] jpeg) {
        early.add(file);
        thumbs.add(jpeg);
        order.add("early " + file.getFileName());
        notifyAll();
    }

    @Override
    public void notComing(Path file) {}

    @Override
    public synchronized void tell(boolean isUp, String says) {
        up = isUp;
        said.add(says);
        notifyAll();
    }

    /** Something else that is waited for has changed. */
    synchronized void changed() {
        changes++;
        notifyAll();
    }

    /** Waits until it holds; looks again whenever something was said. */
    synchronized void await(String what, BooleanSupplier condition) {
        long until = System.nanoTime() + DEADLINE_NANOS;
        while (!condition.getAsBoolean()) {
            long left = until - System.nanoTime();
            assertTrue(
                    left > 0,
                    "waited in vain for "
                            + what
                            + "; said: "
                            + said
                            + "; "
                            + order
                            + "; "
                            + changes);
            try {
                TimeUnit.NANOSECONDS.timedWait(this, Math.min(left, 20_000_000));
            } catch (InterruptedException e) {
                throw new AssertionError(e);
            }
        }
    }

    void awaitUp() {
        await("the link to be up", () -> up);
    }

    void awaitDown() {
        await("the link to be down", () -> !said.isEmpty() && !up);
    }

    void awaitWhole(int files) {
        await(files + " files", () -> whole.size() >= files);
    }

    synchronized List<Path> whole() {
        return Collections.unmodifiableList(new ArrayList<>(whole));
    }

    synchronized List<Path> early() {
        return Collections.unmodifiableList(new ArrayList<>(early));
    }

    synchronized List<byte[]> thumbs() {
        return Collections.unmodifiableList(new ArrayList<>(thumbs));
    }

    synchronized List<String> order() {
        return List.copyOf(order);
    }

    synchronized List<String> said() {
        return List.copyOf(said);
    }

    synchronized String lastSaid() {
        return said.isEmpty() ? "" : said.get(said.size() - 1);
    }

    synchronized boolean up() {
        return up;
    }
}
