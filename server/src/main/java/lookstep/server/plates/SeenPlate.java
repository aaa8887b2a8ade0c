package lookstep.server.plates;

import lookstep.protocols.image.ExifData;
import lookstep.server.plan.CameraSettings;
import lookstep.simulator.model.colour.Srgb;
import lookstep.simulator.model.optics.Exposure;
import lookstep.simulator.model.optics.Scales;
import lookstep.simulator.model.plates.CodedPicture;

/**
 * A frame as it is worked with.
 *
 * @param number of the frame
 * @param picture its pixels, upright, in sRGB
 * @param exif what the camera says of it
 */
public record SeenPlate(int number, CodedPicture picture, ExifData exif) {
    private static final float[] LINEAR = new float[256];

    static {
        for (int code = 0; code < LINEAR.length; code++) {
            LINEAR[code] = (float) Srgb.decode(code / 255.0);
        }
    }

    /**
     * Exposure scale; what the camera does not say is as it was to be set. The exact values behind
     * the nominal ones.
     */
    double scale(CameraSettings set) {
        return Exposure.scale(
                Scales.exactFNumber(exif.fNumber().orElse(set.fNumber())),
                Scales.exactSeconds(exif.seconds().orElse(set.seconds())),
                Scales.exactIso(exif.iso().isPresent() ? exif.iso().getAsInt() : set.iso()));
    }

    /** What the camera was set to; what it does not say is as it was to be. */
    CameraSettings settings(CameraSettings set) {
        return new CameraSettings(
                exif.fNumber().orElse(set.fNumber()),
                exif.seconds().orElse(set.seconds()),
                exif.iso().isPresent() ? exif.iso().getAsInt() : set.iso(),
                kelvin(set));
    }

    /** White balance; as it was to be set if the camera does not say. */
    double kelvin(CameraSettings set) {
        return exif.whiteBalanceKelvin().orElse(set.kelvin());
    }

    /**
     * Small, and roughly linear: red, green, blue of every pixel as if the camera wrote plain sRGB.
     */
    float[] small(int width, int height) {
        float[] sum = new float[width * height * 3];
        int[] count = new int[width * height];
        for (int y = 0; y < picture.height(); y++) {
            int row = y * height / picture.height() * width;
            for (int x = 0; x < picture.width(); x++) {
                int i = row + x * width / picture.width();
                count[i]++;
                for (int c = 0; c < 3; c++) {
                    sum[i * 3 + c] += LINEAR[picture.code(x, y, c)];
                }
            }
        }
        for (int i = 0; i < sum.length; i++) {
            sum[i] /= Math.max(1, count[i / 3]);
        }
        return sum;
    }

    /** Share of the pixels that are at the end of their scale in some channel. */
    double burnt() {
        int burnt = 0;
        for (int y = 0; y < picture.height(); y++) {
            for (int x = 0; x < picture.width(); x++) {
                boolean over = false;
                for (int c = 0; c < 3; c++) {
                    over |= picture.code(x, y, c) >= 254;
                }
                burnt += over ? 1 : 0;
            }
        }
        return (double) burnt / (picture.width() * picture.height());
    }
}
