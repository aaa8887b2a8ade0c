package lookstep.server.intake;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import lookstep.server.live.Event.FileMark;
import lookstep.server.live.Frame;
import lookstep.server.live.Live.Arrival;

/**
 * Which files are of one release of the shutter, and which are one and the same. Pure but for
 * reading.
 */
final class Releases {
    private Releases() {}

    /** By its name: a camera's JPEG, not a raw file. */
    static boolean isJpeg(String path) {
        String name = path.toLowerCase(Locale.ROOT);
        return name.endsWith(".jpg") || name.endsWith(".jpeg") || name.endsWith(".jpe");
    }

    /**
     * The frame that this file belongs to: a raw file and a JPEG of one name in one folder, exposed
     * at one time as far as both say it. Cameras count their names round, so the newest is looked
     * for.
     */
    static Optional<Frame> partner(List<Frame> frames, FileMark file, String takenAt) {
        for (int i = frames.size() - 1; i >= 0; i--) {
            Frame frame = frames.get(i);
            boolean sameName = stem(frame.file().path()).equals(stem(file.path()));
            if (sameName && frame.files().size() == 1) {
                boolean otherKind = isJpeg(frame.file().path()) != isJpeg(file.path());
                return otherKind && sameTime(frame.takenAt(), takenAt)
                        ? Optional.of(frame)
                        : Optional.empty();
            }
        }
        return Optional.empty();
    }

    private static boolean sameTime(String one, String other) {
        return one.isEmpty() || other.isEmpty() || seconds(one).equals(seconds(other));
    }

    /** A raw file may leave the fraction out. */
    private static String seconds(String takenAt) {
        int point = takenAt.indexOf('.');
        return point < 0 ? takenAt : takenAt.substring(0, point);
    }

    private static String stem(String path) {
        int point = path.lastIndexOf('.');
        return point < 0 ? path : path.substring(0, point);
    }

    /**
     * The same file of the same exposure again, touched or copied back: by its name, its size and
     * the camera's time.
     */
    static boolean touched(List<Frame> frames, Arrival arrival) {
        return !arrival.takenAt().isEmpty()
                && frames.stream()
                        .filter(f -> f.takenAt().equals(arrival.takenAt()))
                        .flatMap(f -> f.files().stream())
                        .anyMatch(
                                m ->
                                        m.path().equals(arrival.file().path())
                                                && m.bytes() == arrival.file().bytes());
    }

    /**
     * The file among the shoot's that has the same bytes.
     *
     * @param folder where the originals are
     * @throws IOException if the new file cannot be read
     */
    static Optional<Frame> sameBytes(List<Frame> frames, Path folder, FileMark file)
            throws IOException {
        for (Frame frame : frames) {
            for (FileMark known : frame.files()) {
                if (known.bytes() == file.bytes()
                        && !known.path().equals(file.path())
                        && same(folder.resolve(known.path()), folder.resolve(file.path()))) {
                    return Optional.of(frame);
                }
            }
        }
        return Optional.empty();
    }

    private static boolean same(Path known, Path file) throws IOException {
        return Files.isRegularFile(known) && Files.mismatch(known, file) < 0;
    }
}
