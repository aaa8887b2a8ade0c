package lookstep.server.ftp;

import static org.junit.jupiter.api.Assertions.fail;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.BooleanSupplier;
import java.util.stream.Stream;
import lookstep.server.gear.WayIn;

/** A shoot that writes down what a way in says to it. */
final class Shoot implements WayIn.Incoming {
    private static final long PATIENCE_NANOS = 30_000_000_000L;

    private final Path folder;
    private final List<Path> whole = new ArrayList<>();
    private final List<String> told = new ArrayList<>();
    private boolean up;

    Shoot(Path folder) {
        this.folder = folder;
    }

    @Override
    public Path folder() {
        return folder;
    }

    @Override
    public synchronized void whole(Path file) {
        whole.add(file);
        notifyAll();
    }

    @Override
    public void early(Path file, byte[] jpeg) {
        fail("FTP has no small pictures");
    }

    @Override
    public void notComing(Path file) {}

    @Override
    public synchronized void tell(boolean nowUp, String says) {
        up = nowUp;
        told.add(says);
        notifyAll();
    }

    synchronized List<Path> whole() {
        return List.copyOf(whole);
    }

    synchronized boolean up() {
        return up;
    }

    synchronized String last() {
        return told.get(told.size() - 1);
    }

    synchronized List<String> told() {
        return List.copyOf(told);
    }

    /** Waits until it is so; what changes it wakes this up. */
    synchronized void await(String what, BooleanSupplier is) throws InterruptedException {
        long end = System.nanoTime() + PATIENCE_NANOS;
        while (!is.getAsBoolean()) {
            long left = end - System.nanoTime();
            if (left <= 0) {
                fail(what + " did not come about; told was " + told + ", whole " + whole);
            }
            wait(Math.min(left / 1_000_000 + 1, 100));
        }
    }

    /** Names of all files below the folder, hidden ones too, in order. */
    List<String> names() throws IOException {
        try (Stream<Path> all = Files.walk(folder)) {
            return all.filter(Files::isRegularFile)
                    .map(path -> folder.relativize(path).toString())
                    .sorted()
                    .toList();
        }
    }
}
