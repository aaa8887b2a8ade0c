package lookstep.server.frames;

import java.io.FileNotFoundException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.AccessDeniedException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import lookstep.protocols.image.BareJpeg;
import lookstep.protocols.image.EmbeddedPicture;
import lookstep.protocols.image.EmbeddedPictures;
import lookstep.protocols.image.ExifReader;
import lookstep.protocols.image.TiffStructure;
import lookstep.server.frames.PreviewResult.FrameProblem;
import lookstep.server.frames.PreviewResult.Preview;

/** An original that is open: how it is to be turned, and the pictures inside it. Only read. */
final class PictureFile implements AutoCloseable {
    /** What is done with an open file. */
    interface Use {
        /** Gives the picture, or throws with plain words why there is none. */
        Preview of(PictureFile file) throws IOException;
    }

    /** What is done with a picture that can be decoded. */
    interface Decoding<T> {
        /** Reads what it wants. */
        T of(StoredPicture picture) throws IOException;
    }

    private final FileChannel channel;
    private final Path original;
    private final boolean tiff;
    private final int orientation;
    private final List<EmbeddedPicture> inside;

    private PictureFile(Path original, FileChannel channel) throws IOException {
        this.original = original;
        this.channel = channel;
        tiff = TiffStructure.begins(channel);
        orientation = ExifReader.read(channel).data().orientation();
        inside = EmbeddedPictures.of(channel).pictures();
    }

    static PictureFile open(Path original) throws IOException {
        FileChannel channel = FileChannel.open(original, StandardOpenOption.READ);
        try {
            return new PictureFile(original, channel);
        } catch (IOException | RuntimeException e) {
            channel.close();
            throw e;
        }
    }

    /** Does it; whatever the file holds becomes a picture or a problem in plain words. */
    static PreviewResult use(Path original, Use use) {
        try (PictureFile file = open(original)) {
            return use.of(file);
        } catch (FileNotFoundException | NoSuchFileException | AccessDeniedException gone) {
            return problem(original, "the file is not there any more, or may not be read");
        } catch (IOException | RuntimeException broken) {
            // The JDK's decoder throws unchecked exceptions too, such as for broken profiles.
            return problem(original, String.valueOf(broken.getMessage()));
        }
    }

    /** How the picture, and each picture inside it, is to be turned: 1..8 as in Exif. */
    int orientation() {
        return orientation;
    }

    /** The smaller pictures inside it. */
    List<EmbeddedPicture> inside() {
        return inside;
    }

    /**
     * Decodes the picture itself; of a RAW file the largest JPEG inside it. If that fails and the
     * picture has a colour profile, it is tried as if it had none.
     *
     * @throws IOException if it cannot be done; the message says why in plain words
     */
    <T> T decode(Decoding<T> how) throws IOException {
        long start = 0;
        long length = channel.size();
        if (tiff || PictureKind.of(original).filter(k -> k == PictureKind.OTHER_RAW).isPresent()) {
            EmbeddedPicture largest = largestInside();
            start = largest.start();
            length = largest.length();
        }
        try {
            return decode(new PictureStream(channel, start, length, List.of()), how);
        } catch (IOException | RuntimeException e) {
            List<Long> profile = BareJpeg.profilePlaces(channel, start, length);
            if (profile.isEmpty()) {
                throw e;
            }
            return decode(new PictureStream(channel, start, length, profile), how);
        }
    }

    private static <T> T decode(PictureStream in, Decoding<T> how) throws IOException {
        try (in;
                StoredPicture picture = StoredPicture.open(in)) {
            return how.of(picture);
        }
    }

    private EmbeddedPicture largestInside() throws IOException {
        return inside.stream()
                .max(Comparator.comparingInt(EmbeddedPicture::longSide))
                .orElseThrow(
                        () ->
                                new IOException(
                                        "no preview was found inside this RAW file; set the"
                                                + " camera to write a JPEG beside it"));
    }

    /**
     * A picture inside as it is, not decoded, so that a browser shows it upright and in its
     * colours. Nothing else of its words goes with it.
     *
     * @return empty if it is not whole
     */
    Optional<Preview> asItIs(EmbeddedPicture picture) throws IOException {
        ByteBuffer bytes = ByteBuffer.allocate((int) picture.length());
        while (bytes.hasRemaining()) {
            if (channel.read(bytes, picture.start() + bytes.position()) < 0) {
                return Optional.empty();
            }
        }
        boolean sideways = orientation >= 5;
        return BareJpeg.of(bytes.array(), orientation, BareJpeg.profile(channel))
                .map(
                        jpeg ->
                                new Preview(
                                        jpeg,
                                        sideways ? picture.height() : picture.width(),
                                        sideways ? picture.width() : picture.height()));
    }

    static FrameProblem problem(Path original, String why) {
        return new FrameProblem(
                original, "No preview of " + original.getFileName() + ": " + why + ".");
    }

    @Override
    public void close() throws IOException {
        channel.close();
    }
}
