package lookstep.simulator.gear;

import java.time.Duration;

/**
 * What a simulated camera puts into and beside its JPEG.
 *
 * @param thumbnail whether the Exif has one of 160 x 120 pixels, with black bars where the picture
 *     has another shape, as CIPA DC-010 has it
 * @param largePreview whether a preview of tablet size follows the picture, named in an MPF index
 * @param rawBeside whether a RAW file, with ending DNG, leaves after the JPEG
 * @param clockOffset how far the camera's clock is ahead; negative if it is behind
 */
public record CameraFiles(
        boolean thumbnail, boolean largePreview, boolean rawBeside, Duration clockOffset) {
    /** Thumbnail and preview, no RAW, a clock that is right. */
    public static final CameraFiles USUAL = new CameraFiles(true, true, false, Duration.ZERO);

    /** The same with a RAW file beside the JPEG, or without. */
    public CameraFiles withRaw(boolean beside) {
        return new CameraFiles(thumbnail, largePreview, beside, clockOffset);
    }

    /** The same with another clock. */
    public CameraFiles withClockOffset(Duration offset) {
        return new CameraFiles(thumbnail, largePreview, rawBeside, offset);
    }
}
