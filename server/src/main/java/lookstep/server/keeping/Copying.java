package lookstep.server.keeping;

import java.io.Closeable;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import lookstep.server.disk.Disk;
import lookstep.server.disk.DiskFull;
import lookstep.server.disk.FreeName;
import lookstep.server.disk.WholeFile;
import lookstep.server.keeping.Trouble.Side;

/**
 * The copy of one file, in steps of a piece each: looks whether its bytes are there already under
 * one of its names; otherwise writes them, syncs, opens the copy anew and reads it back, and gives
 * it its name. One thread.
 */
final class Copying implements Closeable {
    /** What a step did. */
    record Done(String sha256, Path copy) {}

    /** The steps, each of which says what comes after it. */
    private enum Phase {
        HASH_ORIGINAL,
        HASH_THERE,
        WRITE,
        READ_BACK
    }

    private final Path original;
    private final Path wanted;
    private final Path part;
    private final SecondPlace place;
    private final Disk disk;
    private final ByteBuffer piece;
    private final Snapshot before;
    private final Deque<Path> there = new ArrayDeque<>();
    private Phase phase;
    private Optional<Hashing> reading = Optional.empty();
    private Optional<Disk.Growing> writing = Optional.empty();
    private String hash = "";
    private long bytesDone;
    private long bytesToDo;

    /**
     * Begins.
     *
     * @param wanted the name of the copy, in the second place
     * @param piece what is read and written at once; shared by all copies, one at a time
     * @throws Trouble if the original cannot be read
     */
    Copying(Path original, Path wanted, SecondPlace place, Disk disk, ByteBuffer piece)
            throws Trouble {
        this.original = original;
        this.wanted = wanted;
        this.part = FreeName.part(wanted);
        this.place = place;
        this.disk = disk;
        this.piece = piece;
        try {
            before = Snapshot.of(original);
            there.addAll(ofTheSameLength());
        } catch (IOException e) {
            throw ofOriginal(e);
        }
        phase = there.isEmpty() ? Phase.WRITE : Phase.HASH_ORIGINAL;
        bytesToDo = before.sizeBytes() * (2 + there.size());
    }

    private List<Path> ofTheSameLength() throws IOException {
        List<Path> same = new ArrayList<>();
        for (int n = 1; ; n++) {
            Path name = FreeName.nth(wanted, n);
            if (!Files.exists(name)) {
                return same;
            }
            if (Files.isRegularFile(name) && Files.size(name) == before.sizeBytes()) {
                same.add(name);
            }
        }
    }

    /** How far it is, 0 to 1. */
    double part() {
        return bytesToDo == 0 ? 0 : Math.min(1, (double) bytesDone / bytesToDo);
    }

    /**
     * One piece.
     *
     * @return what came of it, at the end
     * @throws Trouble if it cannot go on; nothing lies under a final name then
     */
    Optional<Done> step() throws Trouble {
        return switch (phase) {
            case HASH_ORIGINAL -> hashOriginal();
            case HASH_THERE -> hashThere();
            case WRITE -> write();
            case READ_BACK -> readBack();
        };
    }

    private Optional<Done> hashOriginal() throws Trouble {
        try {
            if (readOn(original)) {
                return Optional.empty();
            }
            hash = finish();
        } catch (IOException e) {
            throw ofOriginal(e);
        }
        ensureUnchanged();
        phase = Phase.HASH_THERE;
        return Optional.empty();
    }

    private Optional<Done> hashThere() throws Trouble {
        try {
            if (readOn(there.getFirst())) {
                return Optional.empty();
            }
            Path copy = there.removeFirst();
            if (finish().equals(hash)) {
                return Optional.of(new Done(hash, copy));
            }
        } catch (IOException e) {
            throw ofPlace(e);
        }
        phase = there.isEmpty() ? Phase.WRITE : Phase.HASH_THERE;
        return Optional.empty();
    }

    private Optional<Done> write() throws Trouble {
        if (writing.isEmpty()) {
            openPart();
        }
        boolean more;
        try {
            more = readOn(original);
        } catch (IOException e) {
            throw ofOriginal(e);
        }
        try {
            if (more) {
                writing.orElseThrow().write(piece);
                return Optional.empty();
            }
            hash = finish();
            writing.orElseThrow().sync();
            writing.orElseThrow().close();
        } catch (IOException e) {
            throw ofPlace(e);
        }
        ensureUnchanged();
        phase = Phase.READ_BACK;
        return Optional.empty();
    }

    /**
     * The part of a former run may be a second name of a whole copy: so deleted, not written over.
     */
    private void openPart() throws Trouble {
        ensureThere();
        try {
            WholeFile.makeFolder(wanted.toAbsolutePath().getParent());
            Files.deleteIfExists(part);
            writing = Optional.of(disk.create(part));
        } catch (FileAlreadyExistsException e) {
            throw new Trouble(
                    Side.ORIGINAL,
                    e.getMessage() + " is in the way of a folder of copies: move it elsewhere",
                    e);
        } catch (IOException e) {
            throw ofPlace(e);
        }
    }

    private Optional<Done> readBack() throws Trouble {
        try {
            if (readOn(part)) {
                return Optional.empty();
            }
            String copied = finish();
            if (!copied.equals(hash)) {
                throw new Trouble(
                        Side.PLACE,
                        "the copy of "
                                + original.getFileName()
                                + " reads back different from what was written: the drive of "
                                + place.folder()
                                + " or its cable is bad; take another",
                        null);
            }
            ensureThere();
            Path copy = WholeFile.place(part, wanted).path();
            ensureThere();
            return Optional.of(new Done(hash, copy));
        } catch (Trouble known) {
            throw known;
        } catch (IOException e) {
            throw ofPlace(e);
        }
    }

    private boolean readOn(Path file) throws IOException {
        if (reading.isEmpty()) {
            reading = Optional.of(Hashing.of(file));
        }
        boolean more = reading.get().next(piece);
        bytesDone += piece.remaining();
        return more;
    }

    private String finish() throws IOException {
        Hashing ended = reading.orElseThrow();
        reading = Optional.empty();
        ended.close();
        return ended.hex();
    }

    private void ensureUnchanged() throws Trouble {
        Snapshot now;
        try {
            now = Snapshot.of(original);
        } catch (IOException e) {
            throw ofOriginal(e);
        }
        if (!now.equals(before)) {
            throw new Trouble(
                    Side.ORIGINAL,
                    original.getFileName() + " changed while it was copied; it is copied anew",
                    null);
        }
    }

    private void ensureThere() throws Trouble {
        Optional<String> missing = place.missing();
        if (missing.isPresent()) {
            throw new Trouble(Side.PLACE, missing.get(), null);
        }
    }

    private Trouble ofOriginal(IOException e) {
        if (e instanceof Trouble known) {
            return known;
        }
        return new Trouble(
                Side.ORIGINAL,
                e instanceof NoSuchFileException
                        ? original + " is gone before it was copied: put it back there"
                        : original
                                + " cannot be read ("
                                + e.getMessage()
                                + "): look at the disk of the frames folder",
                e);
    }

    private Trouble ofPlace(IOException e) {
        String words =
                place.missing()
                        .orElseGet(
                                () ->
                                        DiskFull.is(e)
                                                ? "the second place "
                                                        + place.folder()
                                                        + " is full: make room there; copying"
                                                        + " goes on by itself"
                                                : "the second place "
                                                        + place.folder()
                                                        + " does not take copies ("
                                                        + e.getMessage()
                                                        + "): look at its drive and cable;"
                                                        + " copying goes on by itself");
        return new Trouble(Side.PLACE, words, e);
    }

    /** Ends it wherever it is; a part that is left is taken away if that can be done. */
    @Override
    public void close() {
        try {
            if (reading.isPresent()) {
                reading.get().close();
            }
            if (writing.isPresent()) {
                writing.get().close();
                if (place.missing().isEmpty()) {
                    Files.deleteIfExists(part);
                }
            }
        } catch (IOException leftBehind) {
            // The next copy of this file replaces it.
        }
    }
}
