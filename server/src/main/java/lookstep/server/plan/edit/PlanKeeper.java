package lookstep.server.plan.edit;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.locks.Lock;
import java.util.concurrent.locks.ReentrantLock;
import java.util.function.BiFunction;
import lookstep.server.disk.Disk;
import lookstep.server.disk.DiskFull;
import lookstep.server.disk.ReplacedFile;
import lookstep.server.plan.file.PlanError;
import lookstep.server.plan.file.PlanReading;

/**
 * A plan file, edited here and by others at the same time. What is in the file when an edit comes
 * is taken in first; what does not read is told, and never written over. Every version reads well.
 */
public final class PlanKeeper {
    /** No plan is so large; the reader says so. */
    private static final int MOST_BYTES = 1_000_001;

    private static final int MOST_TRIES = 20;

    private final Path file;
    private final BiFunction<byte[], Path, PlanReading> reader;
    private final ReplacedFile replaced;
    private final History history = new History();
    private Version current;
    private Optional<byte[]> known;
    private boolean unwritten;

    /** What a look found that was new; taken in when the next finds it unchanged. */
    private byte[] settling = {};

    /** A change of the document that may be refused. */
    private interface Changing {
        PlanDocument from(PlanDocument document) throws EditRefused;
    }

    /** What happens in the history when it is written. */
    private interface Keeping {
        void keep(History.Turn turn);
    }

    private PlanKeeper(
            Path file,
            BiFunction<byte[], Path, PlanReading> reader,
            Optional<byte[]> onDisk,
            byte[] content,
            ReplacedFile replaced)
            throws EditRefused {
        this.file = file;
        this.reader = reader;
        this.replaced = replaced;
        known = onDisk;
        unwritten = onDisk.isEmpty();
        PlanReading reading = reader.apply(content, file);
        if (reading instanceof PlanReading.Bad bad) {
            throw new EditRefused(
                    bad.errors().get(0).text(String.valueOf(file.getFileName())),
                    "mend the file in a text editor");
        }
        current = version(content, (PlanReading.Good) reading, 1);
    }

    /**
     * A plan that is in a file.
     *
     * @param reader reads bytes as those of the file at a path
     * @throws IOException if the file cannot be read
     * @throws EditRefused if it has errors
     */
    public static PlanKeeper of(Path file, BiFunction<byte[], Path, PlanReading> reader)
            throws IOException, EditRefused {
        return of(file, reader, Disk.REAL, new ReentrantLock());
    }

    static PlanKeeper of(
            Path file, BiFunction<byte[], Path, PlanReading> reader, Disk disk, Lock moment)
            throws IOException, EditRefused {
        byte[] content =
                ReplacedFile.read(file, MOST_BYTES)
                        .orElseThrow(() -> new IOException(file + " is not there"));
        return new PlanKeeper(
                file, reader, Optional.of(content), content, new ReplacedFile(disk, moment));
    }

    /**
     * A plan that is in no file yet.
     *
     * @param file where the first edit writes it; must not be there then
     * @throws EditRefused if the text has errors
     */
    public static PlanKeeper unwritten(
            Path file, BiFunction<byte[], Path, PlanReading> reader, String text)
            throws EditRefused {
        return new PlanKeeper(
                file,
                reader,
                Optional.empty(),
                text.getBytes(StandardCharsets.UTF_8),
                new ReplacedFile(Disk.REAL, new ReentrantLock()));
    }

    /** The plan as it was last read or written. */
    public synchronized Version current() {
        return current;
    }

    /** Where it is, or will be. */
    public Path file() {
        return file;
    }

    /** What {@link #undo} would take back. */
    public synchronized Optional<String> undoable() {
        return history.lastDone().map(History.Turn::says);
    }

    /** What {@link #redo} would make again. */
    public synchronized Optional<String> redoable() {
        return history.lastUndone().map(History.Turn::says);
    }

    /**
     * Makes all of the edits, or none. Each must find what its author saw.
     *
     * @param says what they are, for undo; if empty, what they change says it
     */
    public synchronized Outcome edit(List<Edit> edits, String says) {
        return write(
                says,
                document -> {
                    PlanDocument out = document;
                    for (Edit edit : edits) {
                        out = out.apply(edit);
                    }
                    return out;
                },
                history::made);
    }

    /** Takes back the last batch of edits made here; what others changed elsewhere stays. */
    public synchronized Outcome undo() {
        Optional<History.Turn> turn = history.lastDone();
        if (turn.isEmpty()) {
            return refused("nothing was edited here", "edit something first", List.of(), List.of());
        }
        History.Turn last = turn.get();
        return write(
                last.says(),
                document -> TakingBack.of(document, last.after(), last.before()),
                made -> history.takenBack(made.back()));
    }

    /** Makes the last batch again that was taken back. */
    public synchronized Outcome redo() {
        Optional<History.Turn> turn = history.lastUndone();
        if (turn.isEmpty()) {
            return refused("nothing was taken back here", "undo first", List.of(), List.of());
        }
        History.Turn last = turn.get();
        return write(
                last.says(),
                document -> TakingBack.of(document, last.before(), last.after()),
                history::madeAgain);
    }

    /**
     * Takes in what others changed in the file, once two looks have found the same: half a file may
     * read well. To be called twice a second or so. It reads the file each time, since the times
     * that file systems keep are too coarse to trust.
     */
    public synchronized Look look() {
        Optional<byte[]> onDisk;
        try {
            onDisk = ReplacedFile.read(file, MOST_BYTES);
        } catch (IOException e) {
            return looked(false, List.of(), trouble(e), List.of());
        }
        if (onDisk.isEmpty()) {
            return looked(
                    false,
                    List.of(),
                    unwritten ? "" : "the plan file " + file + " is gone; an edit writes it anew",
                    List.of());
        }
        if (unwritten) {
            return looked(false, List.of(), exists(), List.of());
        }
        if (isKnown(onDisk)) {
            return looked(false, List.of(), "", List.of());
        }
        PlanReading reading = reader.apply(onDisk.get(), file);
        if (reading instanceof PlanReading.Bad bad) {
            return looked(false, List.of(), notRead(), bad.errors());
        }
        if (!Arrays.equals(settling, onDisk.get())) {
            settling = onDisk.get();
            return looked(false, List.of(), "", List.of());
        }
        Version former = current;
        try {
            takeIn(onDisk.get(), (PlanReading.Good) reading);
        } catch (EditRefused e) {
            return looked(false, List.of(), e.getMessage(), List.of());
        }
        return looked(true, since(former), "", List.of());
    }

    private Look looked(
            boolean isNew, List<Difference> changed, String trouble, List<PlanError> errors) {
        return new Look(
                current,
                isNew,
                changed,
                trouble.isEmpty() ? Optional.empty() : Optional.of(trouble),
                errors);
    }

    private Outcome write(String says, Changing changing, Keeping keeping) {
        Version began = current;
        try {
            for (int i = 0; i < MOST_TRIES; i++) {
                Optional<Outcome> outcome = tryOnce(says, changing, keeping, began);
                if (outcome.isPresent()) {
                    return outcome.get();
                }
            }
            return refused(
                    "the plan file is being changed all the time by something else",
                    "see what writes to " + file,
                    List.of(),
                    since(began));
        } catch (EditRefused e) {
            return refused(e.what(), e.mend(), List.of(), since(began));
        } catch (IOException e) {
            return refused(trouble(e), mend(e), List.of(), since(began));
        }
    }

    /** Empty if the file was changed meanwhile. */
    private Optional<Outcome> tryOnce(
            String says, Changing changing, Keeping keeping, Version began)
            throws EditRefused, IOException {
        Optional<byte[]> onDisk = ReplacedFile.read(file, MOST_BYTES);
        if (onDisk.isPresent() && unwritten) {
            return Optional.of(
                    refused(exists(), "give the plan another name", List.of(), List.of()));
        }
        if (onDisk.isPresent() && !isKnown(onDisk)) {
            PlanReading reading = reader.apply(onDisk.get(), file);
            if (reading instanceof PlanReading.Bad bad) {
                return Optional.of(
                        refused(notRead(), "mend it there first", bad.errors(), since(began)));
            }
            takeIn(onDisk.get(), (PlanReading.Good) reading);
        }
        Version before = current;
        List<Difference> outside = since(began);
        PlanDocument after = changing.from(before.document());
        byte[] content = after.text().getBytes(StandardCharsets.UTF_8);
        PlanReading reading = reader.apply(content, file);
        if (reading instanceof PlanReading.Bad bad) {
            return Optional.of(
                    refused(
                            "the plan would have errors: " + first(bad),
                            "change the edit",
                            bad.errors(),
                            outside));
        }
        List<Difference> changed = Differences.between(before.document().json(), after.json());
        if (after.text().equals(before.text()) && onDisk.isPresent()) {
            return Optional.of(new Outcome.Made(before, changed, outside));
        }
        if (!replaced.replace(file, onDisk, content)) {
            return Optional.empty();
        }
        unwritten = false;
        known = Optional.of(content);
        current = version(content, (PlanReading.Good) reading, before.revision() + 1);
        keeping.keep(new History.Turn(label(says, changed), before.text(), after.text()));
        return Optional.of(new Outcome.Made(current, changed, outside));
    }

    private void takeIn(byte[] content, PlanReading.Good good) throws EditRefused {
        current = version(content, good, current.revision() + 1);
        known = Optional.of(content);
    }

    private List<Difference> since(Version former) {
        return former.revision() == current.revision()
                ? List.of()
                : Differences.between(former.document().json(), current.document().json());
    }

    private boolean isKnown(Optional<byte[]> onDisk) {
        return onDisk.isPresent() && known.isPresent() && Arrays.equals(onDisk.get(), known.get());
    }

    private Outcome refused(
            String what, String mend, List<PlanError> errors, List<Difference> outside) {
        return new Outcome.Refused(current, what, mend, errors, outside);
    }

    private String notRead() {
        return "the plan file " + file.getFileName() + " was changed outside and has errors now";
    }

    private String exists() {
        return file + " is there already, and is not this plan";
    }

    private static String first(PlanReading.Bad bad) {
        PlanError one = bad.errors().get(0);
        return one.what() + "; " + one.mend();
    }

    private String trouble(IOException e) {
        String why =
                DiskFull.is(e)
                        ? "the disk is full"
                        : e instanceof AccessDeniedException
                                ? "it may not be written"
                                : e.getClass().getSimpleName() + ", " + e.getMessage();
        return "the plan file " + file + " cannot be written (" + why + "); it is as it was";
    }

    private static String mend(IOException e) {
        return DiskFull.is(e)
                ? "make room on the disk"
                : "check who may write the file and its folder, and that the disk is there";
    }

    private static String label(String says, List<Difference> changed) {
        if (!says.isBlank()) {
            return says;
        }
        return changed.isEmpty() ? "style" : changed.get(0).words();
    }

    private static Version version(byte[] content, PlanReading.Good good, long revision)
            throws EditRefused {
        PlanDocument document = PlanDocument.of(new String(content, StandardCharsets.UTF_8));
        return new Version(document, hash(content), good.plan(), good.warnings(), revision);
    }

    private static String hash(byte[] content) {
        try {
            return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(content));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }
}
