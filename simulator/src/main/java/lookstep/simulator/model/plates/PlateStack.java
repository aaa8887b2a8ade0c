package lookstep.simulator.model.plates;

import java.awt.image.BufferedImage;
import java.util.List;

/** STUB. Frames with known light, all of one camera position, from which any look is summed. */
public final class PlateStack {
    /**
     * @param levels of each emitter of the rig that were on, 0..1; the house is always on
     * @param scale exposure scale of the frame
     */
    // An array in a record: handed on, not compared.
    @SuppressWarnings("ArrayRecordComponent")
    public record Taken(CodedPicture picture, double[] levels, double scale) {}

    /**
     * What is uncertain in a picture from plates.
     *
     * @param burntShare share of the pixels that hang on a burnt one of a plate
     * @param noiseStopsUnderWhite grey that is as large as its noise
     */
    public record Doubt(double burntShare, double noiseStopsUnderWhite) {}

    /**
     * @param kelvin the white balance that all frames were taken with
     * @throws IllegalArgumentException if sizes differ, or the frames do not tell all emitters
     *     apart; the message says which
     */
    public static PlateStack of(Response response, double kelvin, List<Taken> frames) {
        throw new UnsupportedOperationException();
    }

    public int width() {
        throw new UnsupportedOperationException();
    }

    public int height() {
        throw new UnsupportedOperationException();
    }

    /** As the camera would write it. */
    public BufferedImage picture(double house, double[] levels, double scale, double kelvin) {
        throw new UnsupportedOperationException();
    }

    /** How far {@link #picture} is to be trusted. */
    public Doubt doubt(double house, double[] levels, double scale) {
        throw new UnsupportedOperationException();
    }

    /** In linear light, scaled down to this width. */
    public LinearPlates linear(int width) {
        throw new UnsupportedOperationException();
    }
}
