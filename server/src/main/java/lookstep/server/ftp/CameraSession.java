package lookstep.server.ftp;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import lookstep.server.disk.WholeFile;
import org.apache.ftpserver.ftplet.FileSystemView;
import org.apache.ftpserver.ftplet.FtpException;
import org.apache.ftpserver.ftplet.FtpFile;

/**
 * One connection of a camera that has logged in: where it thinks it is, what it has sent. Takes the
 * place of a file system, since no command may look at files. One thread at a time.
 */
final class CameraSession implements FileSystemView {
    private static final Set<String> OF_A_RENAME = Set.of("RNFR", "RNTO");

    /** What may stand between a REST and its STOR. */
    private static final Set<String> OF_A_TRANSFER =
            Set.of("REST", "PASV", "EPSV", "PORT", "EPRT", "TYPE", "ALLO", "NOOP", "STOR");

    private final String camera;
    private final CameraFolder folder;
    private final FtpNews news;
    private final Map<String, Held> held = new HashMap<>();
    private final Map<String, WholeFile.Placed> sent = new HashMap<>();
    private String place = "/";
    private Optional<String> renaming = Optional.empty();
    private OptionalLong announcedBytes = OptionalLong.empty();
    private long goOnAt;

    /**
     * A whole file that waits for its final name.
     *
     * @param temporary whether its name says so; otherwise it may have that name after all
     */
    private record Held(Upload upload, boolean temporary) {}

    CameraSession(String camera, CameraFolder folder, FtpNews news) {
        this.camera = camera;
        this.folder = folder;
        this.news = news;
    }

    CameraFolder folder() {
        return folder;
    }

    /** In which folder the camera thinks it is. */
    String place() {
        return place;
    }

    void goTo(String path) {
        place = path;
    }

    /** The camera said how long the next file is (ALLO). */
    void announce(long bytes) {
        announcedBytes = OptionalLong.of(bytes);
    }

    OptionalLong takeAnnounced() {
        OptionalLong announced = announcedBytes;
        announcedBytes = OptionalLong.empty();
        return announced;
    }

    /** Where the next file is gone on with (REST); 0 for its start. */
    void goOnAt(long offsetBytes) {
        goOnAt = offsetBytes;
    }

    long takeGoOnAt() {
        long offset = goOnAt;
        goOnAt = 0;
        return offset;
    }

    /** Before each command: a file whose rename does not follow at once has its name already. */
    void before(String command) throws IOException {
        if (!OF_A_TRANSFER.contains(command)) {
            goOnAt = 0;
        }
        if (OF_A_RENAME.contains(command)) {
            return;
        }
        for (String name : List.copyOf(held.keySet())) {
            if (!held.get(name).temporary()) {
                Upload upload = held.remove(name).upload();
                try {
                    place(upload, name);
                } catch (IOException e) {
                    folder.stopped(upload);
                    news.down(
                            name
                                    + " came but could not be given its name ("
                                    + e.getMessage()
                                    + "): look at the disk of the frames folder, then send it"
                                    + " again");
                }
            }
        }
    }

    /**
     * A file came whole and is on the disk.
     *
     * @param sentName as the camera wrote it
     * @return what to tell the camera
     * @throws IOException if it cannot be given its name
     */
    String came(Upload upload, String sentName) throws IOException {
        boolean temporary = SentName.isTemporary(sentName);
        if (temporary || folder.renamesAfterwards()) {
            Held before = held.put(upload.name(), new Held(upload, temporary));
            if (before != null) {
                leave(before.upload());
            }
            return "Waiting for its final name.";
        }
        return place(upload, upload.name());
    }

    /** What came of a file is kept, and people are told. */
    String stopped(Upload upload) throws IOException {
        if (upload.bytes() == 0) {
            folder.drop(upload);
        } else {
            folder.stopped(upload);
        }
        String words =
                "%s stopped half way (%s): send it again"
                        .formatted(upload.name(), megabytes(upload.bytes()));
        news.trouble(camera, words);
        return words;
    }

    String empty(Upload upload) throws IOException {
        folder.drop(upload);
        String words = upload.name() + " came with nothing in it: send it again";
        news.trouble(camera, words);
        return words;
    }

    /** Nothing can come until the disk is seen to. */
    void down(String words) {
        news.down(words);
    }

    /** Wants to rename: allowed for what was sent on this connection. */
    boolean renameFrom(String name) {
        boolean ours = held.containsKey(name) || sent.containsKey(name);
        renaming = ours ? Optional.of(name) : Optional.empty();
        return ours;
    }

    boolean isRenaming() {
        return renaming.isPresent();
    }

    /**
     * Gives the file that is being renamed its name.
     *
     * @throws IOException if it cannot be done; the file is still there
     */
    String renameTo(String name, String sentName) throws IOException {
        String from = renaming.orElseThrow();
        renaming = Optional.empty();
        Held file = held.get(from);
        if (file != null) {
            if (SentName.isTemporary(sentName)) {
                held.remove(from);
                held.put(name, file);
                return "Waiting for its final name.";
            }
            String words = place(file.upload(), name);
            held.remove(from);
            return words;
        }
        WholeFile.Placed before = sent.get(from);
        folder.hasRenamed();
        if (!before.fresh() || from.equals(name)) {
            return "It is here as " + before.path().getFileName() + ".";
        }
        WholeFile.Placed after = folder.place(before.path(), name);
        sent.remove(from);
        sent.put(name, after);
        news.whole(camera, after.path());
        return "It is here as " + after.path().getFileName() + ".";
    }

    /** How long a file is that the camera sent, as far as it is here. */
    Optional<Long> bytesOf(String name) throws IOException {
        Optional<Long> half = folder.halfBytes(name);
        if (half.isPresent()) {
            return half;
        }
        Held waiting = held.get(name);
        if (waiting != null) {
            return Optional.of(waiting.upload().bytes());
        }
        WholeFile.Placed whole = sent.get(name);
        return whole == null ? Optional.empty() : Optional.of(Files.size(whole.path()));
    }

    private String place(Upload upload, String name) throws IOException {
        WholeFile.Placed placed = folder.place(upload.part(), name);
        sent.put(name, placed);
        Path file = placed.path();
        if (placed.fresh()) {
            news.whole(camera, file);
            return "It is here as " + file.getFileName() + ".";
        }
        news.again(camera);
        return "It was here already as " + file.getFileName() + ".";
    }

    private void leave(Upload upload) throws IOException {
        folder.stopped(upload);
        news.trouble(
                camera,
                upload.name() + " came whole but was never given its final name: send it again");
    }

    /** The connection has ended. */
    void ended() {
        try {
            before("QUIT");
            for (Held file : held.values()) {
                leave(file.upload());
            }
        } catch (IOException e) {
            news.trouble(camera, "a file could not be given its name: " + e.getMessage());
        }
        held.clear();
    }

    @Override
    public void dispose() {
        // Too late: the server may have stopped by then.
    }

    @Override
    public FtpFile getHomeDirectory() throws FtpException {
        throw nothingToSee();
    }

    @Override
    public FtpFile getWorkingDirectory() throws FtpException {
        throw nothingToSee();
    }

    @Override
    public boolean changeWorkingDirectory(String path) {
        return false;
    }

    @Override
    public FtpFile getFile(String path) throws FtpException {
        throw nothingToSee();
    }

    @Override
    public boolean isRandomAccessible() {
        return false;
    }

    private static FtpException nothingToSee() {
        return new FtpException("files may be sent here, and not looked at");
    }

    static String megabytes(long bytes) {
        return String.format(Locale.ROOT, "%.1f MB", bytes / 1e6);
    }
}
