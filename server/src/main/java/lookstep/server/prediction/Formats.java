package lookstep.server.prediction;

/**
 * The formats that are cut from a picture of 3:2, held level, from its middle. A page is as ISO 216
 * has it (A4: 210 x 297 mm), a spread two of them.
 */
public final class Formats {
    private static final double PICTURE = 3 / 2.0;
    private static final double PAGE = 210 / 297.0;

    private Formats() {}

    /** Shares of the picture from the left and the top. */
    public record Crop(double left, double right, double top, double bottom) {}

    /**
     * Width over height of a format in the plan's words.
     *
     * @throws IllegalArgumentException if there is no such format
     */
    public static double aspect(String framing) {
        return switch (framing) {
            case "landscape 3:2" -> PICTURE;
            case "landscape 16:9" -> 16 / 9.0;
            case "portrait 4:5" -> 4 / 5.0;
            case "square" -> 1;
            case "spread" -> 2 * PAGE;
            case "cover" -> PAGE;
            default -> throw new IllegalArgumentException("no format '" + framing + "'");
        };
    }

    /** The largest piece of the format from the middle of the picture. */
    public static Crop crop(String framing) {
        double aspect = aspect(framing);
        double wide = Math.min(1, aspect / PICTURE);
        double high = Math.min(1, PICTURE / aspect);
        return new Crop((1 - wide) / 2, (1 + wide) / 2, (1 - high) / 2, (1 + high) / 2);
    }
}
