package lookstep.server.live;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectReader;
import com.fasterxml.jackson.databind.ObjectWriter;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.zip.CRC32;

/**
 * Everything that happened, on disk: one text file for one shoot, append only. A line is one
 * answered change: a CRC-32 of what follows it in hex, and a JSON array of events with their time.
 * It is durable when {@link #append} returns (the file is synced). The file is locked for as long
 * as it is open, so no second program serves the same shoot.
 *
 * <p>A last line that is cut off was never answered: it is put aside when the journal is opened. A
 * line that is damaged elsewhere is an error that names it.
 */
public final class Journal implements AutoCloseable {
    /** One event and when it happened. */
    public record Entry(long atEpochMillis, Event event) {}

    private static final JsonMapper JSON = JsonMapper.builder().build();
    private static final ObjectWriter WRITER = JSON.writerFor(Entry[].class);
    private static final ObjectReader READER = JSON.readerFor(Entry[].class);
    private static final int CRC_LENGTH = 8;

    private final Path file;
    private final FileChannel channel;
    private final List<Entry> found = new ArrayList<>();

    private Journal(Path file, FileChannel channel) {
        this.file = file;
        this.channel = channel;
    }

    /**
     * Loads what reading and writing a journal needs; opens nothing. Done beside the reading of the
     * plan, it brings the light back a little sooner.
     */
    public static void prepare() {
        try {
            READER.readValue(
                    WRITER.writeValueAsString(
                            new Entry[] {new Entry(0, new Event.ClockStarted())}));
        } catch (JsonProcessingException e) {
            throw new IllegalStateException(e);
        }
    }

    /**
     * Opens or makes the journal, and reads it.
     *
     * @throws IOException if it cannot be had; the message names the file and the mend
     */
    public static Journal open(Path file) throws IOException {
        boolean fresh = !Files.exists(file);
        if (fresh) {
            makeForOwnerOnly(file);
        }
        Journal journal = new Journal(file, channel(file));
        try {
            journal.lock();
            journal.read();
            if (fresh) {
                syncFolder(file);
            }
            return journal;
        } catch (IOException | RuntimeException e) {
            journal.close();
            throw e;
        }
    }

    /** It holds the keys of the pages. */
    private static void makeForOwnerOnly(Path file) throws IOException {
        try {
            Files.createFile(
                    file,
                    PosixFilePermissions.asFileAttribute(
                            PosixFilePermissions.fromString("rw-------")));
        } catch (UnsupportedOperationException noSuchPermissions) {
            Files.createFile(file);
        } catch (IOException e) {
            throw cannotOpen(file, e);
        }
    }

    /**
     * Says so if another program serves the shoot of this journal; the file is not read.
     *
     * @throws IOException if it does
     */
    public static void ensureFree(Path file) throws IOException {
        if (Files.exists(file)) {
            try (Journal journal = new Journal(file, channel(file))) {
                journal.lock();
            }
        }
    }

    private static FileChannel channel(Path file) throws IOException {
        try {
            return FileChannel.open(
                    file,
                    StandardOpenOption.CREATE,
                    StandardOpenOption.READ,
                    StandardOpenOption.WRITE);
        } catch (IOException e) {
            throw cannotOpen(file, e);
        }
    }

    private static IOException cannotOpen(Path file, IOException e) {
        return new IOException(
                file
                        + ": the journal cannot be opened; make sure that its folder can be written and"
                        + " that the disk has room",
                e);
    }

    private void lock() throws IOException {
        try {
            if (channel.tryLock() != null) {
                return;
            }
        } catch (OverlappingFileLockException heldByThisProcess) {
            // the same words as for another process
        }
        throw new IOException(
                file
                        + ": this shoot is already being served by another lookstep; stop that one first");
    }

    /** The name of a new file is durable only with its folder (POSIX fsync). */
    private static void syncFolder(Path file) throws IOException {
        try (FileChannel folder =
                FileChannel.open(file.toAbsolutePath().getParent(), StandardOpenOption.READ)) {
            folder.force(true);
        }
    }

    private void read() throws IOException {
        // Through the locked channel: closing another descriptor gives up the lock (POSIX fcntl).
        ByteBuffer all = ByteBuffer.allocate(Math.toIntExact(channel.size()));
        while (all.hasRemaining() && channel.read(all) >= 0) {
            // until all is read
        }
        byte[] bytes = all.array();
        int from = 0;
        int lineNumber = 0;
        for (int i = 0; i < bytes.length; i++) {
            if (bytes[i] == '\n') {
                lineNumber++;
                found.addAll(
                        line(
                                new String(bytes, from, i - from, StandardCharsets.UTF_8),
                                lineNumber));
                from = i + 1;
            }
        }
        if (from < bytes.length) {
            putAside(bytes, from);
        }
        channel.position(from);
    }

    private List<Entry> line(String line, int number) throws IOException {
        String json = line.length() > CRC_LENGTH ? line.substring(CRC_LENGTH + 1) : "";
        if (!line.startsWith(crc(json) + " ")) {
            throw damaged(number, null);
        }
        try {
            Entry[] entries = READER.readValue(json);
            return List.of(entries);
        } catch (JsonProcessingException e) {
            throw damaged(number, e);
        }
    }

    private IOException damaged(int number, Exception why) {
        return new IOException(
                "%s:%d: this journal is damaged at this line; keep it, and begin anew with --fresh"
                        .formatted(file, number),
                why);
    }

    private void putAside(byte[] bytes, int from) throws IOException {
        Path torn = file.resolveSibling(file.getFileName() + ".torn");
        byte[] tail = Arrays.copyOfRange(bytes, from, bytes.length);
        Files.write(torn, tail, StandardOpenOption.CREATE, StandardOpenOption.APPEND);
        channel.truncate(from);
        channel.force(true);
    }

    private static String crc(String json) {
        CRC32 crc = new CRC32();
        crc.update(json.getBytes(StandardCharsets.UTF_8));
        return String.format(Locale.ROOT, "%08x", crc.getValue());
    }

    /**
     * All of them or none, durable on return.
     *
     * @throws IOException if they could not be written, such as on a full disk: they have then not
     *     happened
     */
    public synchronized void append(List<Entry> entries) throws IOException {
        String json = WRITER.writeValueAsString(entries.toArray(new Entry[0]));
        ByteBuffer line =
                ByteBuffer.wrap((crc(json) + " " + json + "\n").getBytes(StandardCharsets.UTF_8));
        long before = -1;
        try {
            before = channel.position();
            while (line.hasRemaining()) {
                channel.write(line);
            }
            channel.force(false);
        } catch (IOException e) {
            takeBack(before);
            throw new IOException(
                    "the journal " + file + " could not be written: " + e.getMessage(), e);
        }
    }

    /** What was written in part must not stand before the next line. */
    private void takeBack(long before) {
        try {
            if (before >= 0) {
                channel.truncate(before);
                channel.position(before);
            }
        } catch (IOException ignored) {
            // the first error is the one to tell; a half line is put aside at the next start
        }
    }

    /** What was in it when it was opened, from the first. */
    public List<Entry> found() {
        return List.copyOf(found);
    }

    /** The state that these entries make. */
    public static LiveState replay(List<Entry> entries) {
        LiveState state = LiveState.NEW;
        for (Entry e : entries) {
            state = state.after(e.event(), e.atEpochMillis());
        }
        return state;
    }

    @Override
    public synchronized void close() {
        try {
            channel.close();
        } catch (IOException ignored) {
            // every answered line is synced already
        }
    }
}
