package lookstep.server.frames;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import lookstep.protocols.image.EmbeddedPicture;
import lookstep.server.frames.PreviewResult.Preview;

/**
 * Makes tablet-size previews by the shortest way. If the file holds a picture of about the wanted
 * size, as cameras put into JPEG and RAW files, that one is handed on without decoding, some
 * hundred times quicker. Otherwise pixels are read thinned out, so that the memory it takes hangs
 * on the preview's size and not on the camera's, and turned upright as Exif says. Never enlarges.
 * Any thread, several at once.
 *
 * @param longSidePixels the longer side of a preview that is decoded, at most; one that is handed
 *     on has from three quarters to two and a half times that
 * @param quality of a JPEG that is encoded here, 0..1
 */
public record PreviewMaker(int longSidePixels, double quality) {
    /** A picture inside the file that is longer than this is not handed on: tablets are far. */
    static final long MOST_HANDED_ON_BYTES = 8_000_000;

    public PreviewMaker {
        if (longSidePixels < 1 || !(quality >= 0 && quality <= 1)) {
            throw new IllegalArgumentException(
                    "preview of " + longSidePixels + " pixels, quality " + quality);
        }
    }

    /** The size for tablets: 1600 pixels, quality 0.85. */
    public PreviewMaker() {
        this(1600, 0.85);
    }

    /** A preview of the file, or why there is none. Never throws for what a file may hold. */
    public PreviewResult make(Path original) {
        return PictureFile.use(original, this::preview);
    }

    private Preview preview(PictureFile file) throws IOException {
        for (EmbeddedPicture picture : fitting(file.inside())) {
            Optional<Preview> asItIs = file.asItIs(picture);
            if (asItIs.isPresent()) {
                return asItIs.get();
            }
        }
        BufferedImage stored = file.decode(picture -> picture.reduced(longSidePixels));
        return EncodedPicture.of(Upright.turn(stored, file.orientation()), quality);
    }

    /** Those that may be handed on: the smallest that is large enough first, then the largest. */
    private List<EmbeddedPicture> fitting(List<EmbeddedPicture> inside) {
        return inside.stream()
                .filter(picture -> picture.longSide() >= longSidePixels * 0.75)
                .filter(picture -> picture.longSide() <= longSidePixels * 2.5)
                .filter(picture -> picture.length() <= MOST_HANDED_ON_BYTES)
                .sorted(
                        Comparator.comparing(
                                        (EmbeddedPicture picture) ->
                                                picture.longSide() < longSidePixels)
                                .thenComparingInt(
                                        picture ->
                                                picture.longSide() < longSidePixels
                                                        ? -picture.longSide()
                                                        : picture.longSide()))
                .toList();
    }
}
