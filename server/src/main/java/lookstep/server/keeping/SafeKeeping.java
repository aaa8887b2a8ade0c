package lookstep.server.keeping;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import lookstep.server.disk.Disk;
import lookstep.server.keeping.Trouble.Side;

/**
 * Copies each original to a second place as it arrives. A loop with one step: one thread calls
 * {@link #doWork} and gives it the time.
 *
 * <p>A copy lies under a hidden name until its bytes have been synced to the disk, read again
 * through a newly opened file and found to have the hash of what was read from the original. What
 * is read may come out of the system's page cache instead of the disk: Java asks for no other way.
 * So it proves what the system holds and was told to write down, and that sync returned without an
 * error; it does not prove what a drive will give after the power was out. {@link #verify} in a
 * later run, with the drive plugged in anew, does.
 */
public final class SafeKeeping implements AutoCloseable {
    /** So much is read and written in one step. */
    static final int PIECE_BYTES = 8 << 20;

    static final long FIRST_PAUSE_NANOS = Duration.ofMillis(250).toNanos();
    static final long LONGEST_PAUSE_NANOS = Duration.ofSeconds(10).toNanos();

    /** How soon it looks for something new to copy. */
    static final long IDLE_NANOS = Duration.ofMillis(20).toNanos();

    /** Is told what came about, on the thread of {@code doWork}. */
    public interface Listener {
        /**
         * An original is safe.
         *
         * @param frame number of its frame
         * @param file the original
         * @param sha256 of both, 64 hexadecimal digits in lower case
         * @param copy where the copy is
         */
        void copied(int frame, Path file, String sha256, Path copy);

        /**
         * How it stands, each trouble once.
         *
         * @param up true if copies come about
         * @param words what is wrong and what to do, or that all is well again
         */
        void told(boolean up, String words);
    }

    private final Path frames;
    private final SecondPlace place;
    private final Listener listener;
    private final Disk disk;
    private final ByteBuffer piece;
    private final Map<Original, Item> items = new LinkedHashMap<>();
    private Optional<Item> now = Optional.empty();
    private Optional<Copying> copying = Optional.empty();
    private Optional<String> placeTrouble = Optional.empty();
    private long placePauseNanos = FIRST_PAUSE_NANOS;
    private long placeAgainNanos;
    private boolean placeResting;

    /** One original and how it stands; its fields are guarded by the loop's lock. */
    private static final class Item {
        private final Original original;
        private CopyState state = new CopyState.Waiting();
        private long pauseNanos = FIRST_PAUSE_NANOS;
        private String told = "";

        Item(Original original) {
            this.original = original;
        }
    }

    /**
     * Touches nothing yet.
     *
     * @param frames the frames folder: what is below it has the same place below the copies
     * @param copies the second place; it must be there at its first use, and is marked then
     * @param usedBefore whether copies of this shoot were put there in an earlier run: without the
     *     marker it counts as gone then
     * @param listener is told on the thread of {@code doWork}
     */
    public SafeKeeping(Path frames, Path copies, boolean usedBefore, Listener listener) {
        this(frames, copies, usedBefore, listener, Disk.REAL, PIECE_BYTES);
    }

    SafeKeeping(
            Path frames,
            Path copies,
            boolean usedBefore,
            Listener listener,
            Disk disk,
            int pieceBytes) {
        this.frames = frames.toAbsolutePath().normalize();
        this.place = new SecondPlace(copies.toAbsolutePath().normalize(), usedBefore);
        this.listener = listener;
        this.disk = disk;
        this.piece = ByteBuffer.allocateDirect(pieceBytes);
    }

    /** Wants a copy of an original; the same one twice is one. Any thread. */
    public void add(int frameNumber, Path original) {
        Original wanted = new Original(frameNumber, original.toAbsolutePath().normalize());
        synchronized (items) {
            items.computeIfAbsent(wanted, Item::new);
        }
    }

    /** How each one stands, in the order in which they were added. Any thread. */
    public Map<Original, CopyState> states() {
        Map<Original, CopyState> all = new LinkedHashMap<>();
        synchronized (items) {
            items.forEach((original, item) -> all.put(original, item.state));
        }
        return all;
    }

    /**
     * One step: a piece of at most 8 MB.
     *
     * @param nowNanos a steady clock, such as {@link System#nanoTime}
     * @return when it wants to be called again
     */
    public long doWork(long nowNanos) {
        if (placeResting && placeAgainNanos - nowNanos > 0) {
            return Math.min(placeAgainNanos, nowNanos + LONGEST_PAUSE_NANOS);
        }
        placeResting = false;
        if (copying.isEmpty()) {
            Optional<Item> next = next(nowNanos);
            if (next.isEmpty()) {
                return nowNanos + IDLE_NANOS;
            }
            now = next;
        }
        Item item = now.orElseThrow();
        try {
            if (copying.isEmpty()) {
                begin(item);
            }
            Copying copy = copying.orElseThrow();
            Optional<Copying.Done> done = copy.step();
            if (done.isPresent()) {
                end();
                safe(item, done.get());
            } else {
                set(item, new CopyState.Copying(copy.part()));
            }
            return nowNanos;
        } catch (Trouble trouble) {
            end();
            if (trouble.side() == Side.PLACE) {
                placeFailed(item, trouble.getMessage(), nowNanos);
            } else {
                originalFailed(item, trouble.getMessage(), nowNanos);
            }
            return nowNanos + IDLE_NANOS;
        }
    }

    private void begin(Item item) throws Trouble {
        Optional<String> missing = place.missing();
        if (missing.isPresent()) {
            throw new Trouble(Side.PLACE, missing.get(), null);
        }
        Path file = item.original.file();
        Path inside = file.startsWith(frames) ? frames.relativize(file) : file.getFileName();
        copying =
                Optional.of(new Copying(file, place.folder().resolve(inside), place, disk, piece));
        set(item, new CopyState.Copying(0));
    }

    private void end() {
        copying.ifPresent(Copying::close);
        copying = Optional.empty();
        now = Optional.empty();
    }

    private Optional<Item> next(long nowNanos) {
        synchronized (items) {
            for (Item item : items.values()) {
                boolean due =
                        item.state instanceof CopyState.Waiting
                                || (item.state instanceof CopyState.Failed failed
                                        && failed.againAtNanos() - nowNanos <= 0);
                if (due) {
                    return Optional.of(item);
                }
            }
        }
        return Optional.empty();
    }

    private void safe(Item item, Copying.Done done) {
        set(item, new CopyState.Safe(done.sha256()));
        placePauseNanos = FIRST_PAUSE_NANOS;
        if (placeTrouble.isPresent()) {
            placeTrouble = Optional.empty();
            listener.told(true, "Copies go to " + place.folder() + " again");
        } else if (!item.told.isEmpty()) {
            listener.told(true, item.original.file().getFileName() + " is copied after all");
        }
        listener.copied(item.original.frame(), item.original.file(), done.sha256(), done.copy());
    }

    private void placeFailed(Item item, String words, long nowNanos) {
        placeAgainNanos = nowNanos + placePauseNanos;
        placeResting = true;
        placePauseNanos = Math.min(2 * placePauseNanos, LONGEST_PAUSE_NANOS);
        set(item, new CopyState.Failed(words, placeAgainNanos));
        if (!placeTrouble.equals(Optional.of(words))) {
            placeTrouble = Optional.of(words);
            listener.told(false, sentence(words));
        }
    }

    private void originalFailed(Item item, String words, long nowNanos) {
        set(item, new CopyState.Failed(words, nowNanos + item.pauseNanos));
        item.pauseNanos = Math.min(2 * item.pauseNanos, LONGEST_PAUSE_NANOS);
        if (!item.told.equals(words)) {
            item.told = words;
            listener.told(placeTrouble.isEmpty(), sentence(words));
        }
    }

    private static String sentence(String words) {
        return words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
    }

    private void set(Item item, CopyState state) {
        synchronized (items) {
            item.state = state;
        }
    }

    /**
     * Whether two folders that are there lie on one drive, which may fail with both.
     *
     * @throws IOException if one of them is not there
     */
    public static boolean onOneDrive(Path frames, Path copies) throws IOException {
        return Files.getFileStore(frames).equals(Files.getFileStore(copies));
    }

    /**
     * Reads a copy once more.
     *
     * @param sha256 64 hexadecimal digits, as {@link Listener#copied} said it
     * @return whether its bytes have that hash
     * @throws IOException if it is not there or cannot be read
     */
    public static boolean verify(Path copy, String sha256) throws IOException {
        ByteBuffer piece = ByteBuffer.allocate(1 << 20);
        try (Hashing reading = Hashing.of(copy)) {
            boolean more;
            do {
                more = reading.next(piece);
            } while (more);
            return reading.hex().equalsIgnoreCase(sha256);
        }
    }

    /** Ends a copy that is under way; on the thread of {@code doWork}, or after it has ended. */
    @Override
    public void close() {
        end();
    }
}
