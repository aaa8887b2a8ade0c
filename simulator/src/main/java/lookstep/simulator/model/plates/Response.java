package lookstep.simulator.model.plates;

/** STUB. How a camera turns light into codes, for each channel. */
public final class Response {
    /** A camera that writes plain sRGB. */
    public static final Response SRGB = new Response();

    /** Light of a code, 0..1; 1 is that of code 255. */
    public double linear(int channel, int code) {
        throw new UnsupportedOperationException();
    }

    /** The code for light, 0..255, clipped. */
    public int code(int channel, double linear) {
        throw new UnsupportedOperationException();
    }

    /** What cannot be told of it, in words for the page; empty if all is well. */
    public java.util.List<String> doubts() {
        throw new UnsupportedOperationException();
    }
}
