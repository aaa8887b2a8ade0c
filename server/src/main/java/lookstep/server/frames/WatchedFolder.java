package lookstep.server.frames;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Queue;
import java.util.Set;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.function.Consumer;
import lookstep.server.frames.FolderListing.Seen;
import lookstep.server.frames.FolderNote.Kind;

/**
 * Takes each picture that comes into a folder, once, when it is whole. A loop with one step: one
 * thread calls {@link #doWork} every few milliseconds and gives it the time; it neither sleeps nor
 * waits. Files are only ever read.
 *
 * <p>The structure of the file decides whether it is whole, not its name, its size or a pause. A
 * RAW file must also have rested: built on TIFF for 0.3 s, since its structure does not tell
 * whether the room it names is filled; of another kind, which cannot be looked into, for 1 s. Who
 * has moved a whole file here can say so ({@link #wholeByTransfer}), and it is not waited for. A
 * file that comes again under the same name is a new frame if its bytes differ. Names that begin
 * with a dot, or do not end like a picture's, are left alone; subfolders are looked into two levels
 * down.
 */
public final class WatchedFolder implements AutoCloseable {
    /** Hints of the system can be lost, so the folder is listed this often all the same. */
    static final long LIST_EVERY_NANOS = Duration.ofSeconds(3).toNanos();

    /** How often it is listed while there are no hints, or no folder. */
    static final long LIST_WITHOUT_HINTS_NANOS = Duration.ofMillis(500).toNanos();

    /** After this long an incomplete file is mentioned. */
    static final long MENTION_NANOS = Duration.ofSeconds(2).toNanos();

    /** An incomplete file that has not changed for this long is given up until it changes. */
    static final long GIVE_UP_NANOS = Duration.ofSeconds(10).toNanos();

    static final long LOOK_EVERY_NANOS = Duration.ofMillis(20).toNanos();

    /** A check reads the file, roughly 1 ns a byte; waiting twice that bounds the load. */
    private static final long CHECK_PAUSE_NANOS_PER_BYTE = 2;

    private final Path folder;
    private final Set<KnownFile> known;
    private final Consumer<ArrivedFile> arrived;
    private final Consumer<FolderNote> notes;
    private final FolderWatch watch;
    private final Map<Path, TrackedFile> files = new LinkedHashMap<>();
    private final Queue<Path> moved = new ConcurrentLinkedQueue<>();
    private boolean started;
    private boolean gone;
    private long nextListNanos;

    /**
     * Nothing is read until the first {@link #doWork}; the folder need not be there yet.
     *
     * @param folder what to watch
     * @param known files that are not to be taken again
     * @param arrived gets each whole picture, on the thread of {@code doWork}
     * @param notes gets what people should know, on the same thread
     */
    public WatchedFolder(
            Path folder,
            Set<KnownFile> known,
            Consumer<ArrivedFile> arrived,
            Consumer<FolderNote> notes) {
        this(folder, known, arrived, notes, FolderWatch.on(folder.getFileSystem()));
    }

    WatchedFolder(
            Path folder,
            Set<KnownFile> known,
            Consumer<ArrivedFile> arrived,
            Consumer<FolderNote> notes,
            FolderWatch watch) {
        this.folder = folder;
        this.known = Set.copyOf(known);
        this.arrived = arrived;
        this.notes = notes;
        this.watch = watch;
    }

    /**
     * One step: takes the system's hints, lists the folder if that is due, looks at the files that
     * are still arriving.
     *
     * @param nowNanos a steady clock, such as {@link System#nanoTime}
     * @return how many files were looked at or told of; 0 if there was nothing to do, when the
     *     caller may rest for a few milliseconds
     */
    public int doWork(long nowNanos) {
        FolderWatch.Hints hints = watch.take();
        boolean list = !started || hints.lookAgain() || nowNanos - nextListNanos >= 0;
        started = true;
        for (Path touched : hints.touched()) {
            if (FolderListing.isHidden(touched)) {
                continue;
            }
            if (Files.isDirectory(touched, LinkOption.NOFOLLOW_LINKS)) {
                list = true;
            } else {
                FolderListing.seen(touched).ifPresent(seen -> touch(seen, nowNanos));
            }
        }
        int work = hints.touched().size() + takeMoved(nowNanos);
        if (list) {
            work += list(nowNanos);
        }
        for (TrackedFile file : List.copyOf(files.values())) {
            if (file.pending && nowNanos - file.nextLookNanos >= 0) {
                look(file, nowNanos);
                work++;
            }
        }
        return work;
    }

    /**
     * Says that a file was moved here whole, so that its size need not come to rest; its structure
     * is still looked at. Any thread; it is taken in the next {@link #doWork}.
     *
     * @param file inside the watched folder
     * @throws IllegalArgumentException if it is not inside
     */
    public void wholeByTransfer(Path file) {
        Path root = folder.toAbsolutePath().normalize();
        Path whole = file.toAbsolutePath().normalize();
        if (!whole.startsWith(root) || whole.equals(root)) {
            throw new IllegalArgumentException(file + " is not inside " + folder);
        }
        moved.add(folder.resolve(root.relativize(whole)));
    }

    private int takeMoved(long nowNanos) {
        int taken = 0;
        Path path;
        while ((path = moved.poll()) != null) {
            Optional<Seen> seen = FolderListing.seen(path);
            if (seen.isPresent()) {
                touch(seen.get(), nowNanos);
                files.get(path).wholeByTransfer = true;
            }
            taken++;
        }
        return taken;
    }

    /** Stops the system's hints. */
    @Override
    public void close() {
        watch.close();
    }

    private int list(long nowNanos) {
        FolderListing listing;
        try {
            listing = FolderListing.of(folder);
            if (watch.watch(listing.folders())) {
                // What came in before the watch was set gave no hint.
                listing = FolderListing.of(folder);
                watch.watch(listing.folders());
            }
        } catch (IOException e) {
            nextListNanos = nowNanos + LIST_WITHOUT_HINTS_NANOS;
            return folderGone(e);
        }
        nextListNanos = nowNanos + (watch.works() ? LIST_EVERY_NANOS : LIST_WITHOUT_HINTS_NANOS);
        if (gone) {
            gone = false;
            notes.accept(new FolderNote(Kind.FOLDER_BACK, folder, "The folder is back: " + folder));
        }
        List<Path> present = new ArrayList<>();
        for (Seen seen : listing.pictures()) {
            present.add(seen.path());
            TrackedFile file = files.get(seen.path());
            if (file == null || !file.unchangedSinceLook(seen)) {
                touch(seen, nowNanos);
            }
        }
        Set<Path> names = Set.copyOf(present);
        files.values().removeIf(file -> file.taken == null && !names.contains(file.path));
        return listing.pictures().size();
    }

    private int folderGone(IOException e) {
        watch.close();
        files.values().removeIf(file -> file.taken == null);
        if (gone) {
            return 0;
        }
        gone = true;
        String why =
                e instanceof AccessDeniedException
                        ? "The folder may not be read: " + folder + ". Give this user the right to."
                        : "The folder is not there: "
                                + folder
                                + ". Plug the card reader or the drive in again, or make the"
                                + " folder; watching goes on by itself.";
        notes.accept(new FolderNote(Kind.FOLDER_GONE, folder, why));
        return 1;
    }

    private void touch(Seen seen, long nowNanos) {
        TrackedFile file = files.get(seen.path());
        if (file == null) {
            file =
                    new TrackedFile(
                            seen.path(), PictureKind.of(seen.path()).orElse(PictureKind.JPEG));
            file.firstSeenNanos = nowNanos;
            file.lastChangeNanos = nowNanos;
            file.nextLookNanos = nowNanos;
            files.put(seen.path(), file);
            KnownFile asKnown =
                    KnownFile.of(
                            folder, seen.path(), seen.sizeBytes(), seen.modified().toInstant());
            if (known.contains(asKnown)) {
                file.remember(seen);
                file.taken =
                        new TrackedFile.Taken(
                                seen.sizeBytes(), seen.modified().toMillis(), OptionalLong.empty());
                return;
            }
        } else if (!file.pending) {
            file.firstSeenNanos = nowNanos;
            file.lastChangeNanos = nowNanos;
            file.nextLookNanos = nowNanos;
            file.said = null;
        }
        file.pending = true;
        file.unchecked = true;
        if (file.sizeBytes >= 0) {
            long rested = file.lastCheckNanos + CHECK_PAUSE_NANOS_PER_BYTE * file.sizeBytes;
            file.nextLookNanos = rested - nowNanos > 0 ? rested : nowNanos;
        }
    }

    private void look(TrackedFile file, long nowNanos) {
        Optional<Seen> found = FolderListing.seen(file.path);
        if (found.isEmpty()) {
            file.pending = false;
            if (file.taken == null) {
                files.remove(file.path);
            }
            return;
        }
        Seen seen = found.get();
        if (!file.unchangedSinceLook(seen)) {
            file.remember(seen);
            file.lastChangeNanos = nowNanos;
            file.unchecked = true;
            if (file.said != Kind.STILL_ARRIVING) {
                file.said = null;
            }
        }
        file.nextLookNanos =
                nowNanos
                        + Math.max(LOOK_EVERY_NANOS, CHECK_PAUSE_NANOS_PER_BYTE * seen.sizeBytes());
        long quietNanos = nowNanos - file.lastChangeNanos;
        boolean lastLook = quietNanos >= GIVE_UP_NANOS;
        if (!file.unchecked && !lastLook) {
            mention(file, nowNanos);
            return;
        }
        if (!file.wholeByTransfer && quietNanos < file.kind.restNanos()) {
            long untilRested = file.kind.restNanos() - quietNanos;
            file.nextLookNanos = nowNanos + Math.min(untilRested, file.nextLookNanos - nowNanos);
            mention(file, nowNanos);
            return;
        }
        file.unchecked = false;
        file.lastCheckNanos = nowNanos;
        try {
            PictureCheck check = PictureCheck.of(file.path, file.kind);
            switch (check.verdict()) {
                case WHOLE -> whole(file, seen, check);
                case NOT_YET -> {
                    if (lastLook) {
                        giveUp(file, Kind.STOPPED_HALF_WAY, stoppedWords(file));
                    } else {
                        mention(file, nowNanos);
                    }
                }
                case NOT_A_PICTURE -> notAPicture(file, check, quietNanos);
            }
        } catch (NoSuchFileException goneNow) {
            file.unchecked = true;
        } catch (IOException e) {
            file.unchecked = true;
            if (quietNanos >= MENTION_NANOS) {
                file.nextLookNanos = nowNanos + LIST_WITHOUT_HINTS_NANOS;
                say(file, Kind.UNREADABLE, unreadableWords(file, e));
            }
        }
    }

    private void notAPicture(TrackedFile file, PictureCheck check, long quietNanos) {
        if (quietNanos >= MENTION_NANOS) {
            giveUp(
                    file,
                    Kind.NOT_A_PICTURE,
                    name(file)
                            + (file.kind.isRaw()
                                    ? " is not the RAW picture that its name says ("
                                    : " is not a JPEG picture (")
                            + check.words()
                            + "). It is left where it is; send it again from the camera if it"
                            + " should be one.");
        } else {
            // Some writers put the head in last, so a bad start may yet turn good.
            file.unchecked = true;
        }
    }

    private void whole(TrackedFile file, Seen seen, PictureCheck check) throws IOException {
        Optional<Seen> after = FolderListing.seen(file.path);
        if (after.isEmpty() || !file.unchangedSinceLook(after.get())) {
            file.unchecked = true;
            return;
        }
        file.pending = false;
        file.wholeByTransfer = false;
        if (file.taken != null && sameContent(file.taken, file.path, seen)) {
            file.taken =
                    new TrackedFile.Taken(
                            seen.sizeBytes(),
                            seen.modified().toMillis(),
                            Checksum.of(file.path, seen.sizeBytes()));
            return;
        }
        file.taken =
                new TrackedFile.Taken(
                        seen.sizeBytes(), seen.modified().toMillis(), OptionalLong.empty());
        arrived.accept(
                new ArrivedFile(
                        file.path,
                        seen.sizeBytes(),
                        seen.modified().toInstant(),
                        check.exif(),
                        file.kind.isRaw(),
                        check.notes()));
        OptionalLong checksum = Checksum.of(file.path, seen.sizeBytes());
        Optional<Seen> still = FolderListing.seen(file.path);
        if (still.isPresent() && file.unchangedSinceLook(still.get())) {
            file.taken =
                    new TrackedFile.Taken(seen.sizeBytes(), seen.modified().toMillis(), checksum);
        }
    }

    /** The same picture touched, copied over itself, or with bytes added after its end. */
    private static boolean sameContent(TrackedFile.Taken taken, Path path, Seen seen) {
        if (taken.checksum().isEmpty() || seen.sizeBytes() < taken.sizeBytes()) {
            return taken.fits(seen);
        }
        return Checksum.of(path, taken.sizeBytes()).equals(taken.checksum());
    }

    private void mention(TrackedFile file, long nowNanos) {
        if (nowNanos - file.firstSeenNanos >= MENTION_NANOS && file.said == null) {
            say(
                    file,
                    Kind.STILL_ARRIVING,
                    name(file) + " is still arriving (" + megabytes(file) + " so far).");
        }
    }

    private void giveUp(TrackedFile file, Kind kind, String words) {
        file.pending = false;
        say(file, kind, words);
    }

    private void say(TrackedFile file, Kind kind, String words) {
        if (file.said != kind) {
            file.said = kind;
            notes.accept(new FolderNote(kind, file.path, words));
        }
    }

    private String stoppedWords(TrackedFile file) {
        return (file.sizeBytes == 0
                        ? name(file) + " is empty."
                        : name(file) + " stopped half way (" + megabytes(file) + ").")
                + " Look at the cable and the card, then send it again; it is taken as soon as it"
                + " is whole.";
    }

    private String unreadableWords(TrackedFile file, IOException e) {
        return name(file)
                + (e instanceof AccessDeniedException
                        ? " may not be read. Give this user the right to read it."
                        : " cannot be read (" + e.getMessage() + "). Look at the card or drive.");
    }

    private String name(TrackedFile file) {
        return folder.relativize(file.path).toString();
    }

    private static String megabytes(TrackedFile file) {
        return String.format(Locale.ROOT, "%.1f MB", file.sizeBytes / 1e6);
    }
}
