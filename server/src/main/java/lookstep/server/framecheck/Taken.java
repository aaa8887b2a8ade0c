package lookstep.server.framecheck;

import java.awt.image.BufferedImage;
import java.util.List;
import java.util.Optional;
import lookstep.protocols.image.ExifData;
import lookstep.server.plan.Look;
import lookstep.server.plan.Shot;

/**
 * A frame that came in.
 *
 * @param number 1, 2, 3 ... as they came
 * @param shot the one that was current
 * @param look the light it was on, with what was changed on the set
 * @param exif what the camera says
 * @param preview upright, sRGB, about 1600 pixels on its longer side
 * @param detail the original, if it can be had
 * @param kept the pictures that the photographer keeps so far
 */
public record Taken(
        int number,
        Shot shot,
        Look look,
        ExifData exif,
        BufferedImage preview,
        Optional<DetailSource> detail,
        List<KeptPicture> kept) {
    public Taken {
        kept = List.copyOf(kept);
    }

    /** The lens as the camera says it, or as planned. */
    double lensMillimetres() {
        return exif.focalMillimetres().orElse(shot.lensMillimetres());
    }
}
