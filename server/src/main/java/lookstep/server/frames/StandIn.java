package lookstep.server.frames;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import lookstep.protocols.image.EmbeddedPicture;
import lookstep.protocols.image.EmbeddedPicture.Kind;
import lookstep.server.frames.PreviewResult.Preview;

/**
 * A small picture to be shown at once until the preview is there: the Exif thumbnail, or else the
 * smallest picture inside the file, not decoded. Exif thumbnails are often 160 x 120 with black
 * bars around a picture of another shape; the bars are left as they are.
 */
public final class StandIn {
    /** Above this it would come no sooner than the preview. */
    static final int MOST_BYTES = 256 * 1024;

    private StandIn() {}

    /** Empty if there is none of at most 256 KiB, or the file cannot be read. */
    public static Optional<Preview> of(Path original) {
        try (PictureFile file = PictureFile.open(original)) {
            List<EmbeddedPicture> smallestFirst =
                    file.inside().stream()
                            .filter(picture -> picture.length() <= MOST_BYTES)
                            .sorted(
                                    Comparator.comparing(
                                                    (EmbeddedPicture picture) ->
                                                            picture.kind() != Kind.EXIF_THUMBNAIL)
                                            .thenComparingInt(EmbeddedPicture::longSide))
                            .toList();
            for (EmbeddedPicture picture : smallestFirst) {
                Optional<Preview> shown =
                        file.asItIs(picture).filter(made -> made.jpeg().length <= MOST_BYTES);
                if (shown.isPresent()) {
                    return shown;
                }
            }
            return Optional.empty();
        } catch (IOException | RuntimeException unreadable) {
            // the preview will say why
            return Optional.empty();
        }
    }
}
