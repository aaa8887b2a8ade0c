package lookstep.server.prediction;

import lookstep.server.plan.Sensor;

/**
 * The formats that are cut from the middle of a picture. The camera is held upright for those that
 * are higher than wide, and level for all others. A page is as ISO 216 has it (A4: 210 x 297 mm), a
 * spread two of them.
 */
public final class Formats {
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
            case "landscape 3:2" -> 3 / 2.0;
            case "landscape 16:9" -> 16 / 9.0;
            case "portrait 4:5" -> 4 / 5.0;
            case "square" -> 1;
            case "spread" -> 2 * PAGE;
            case "cover" -> PAGE;
            default -> throw new IllegalArgumentException("no format '" + framing + "'");
        };
    }

    /** Whether the camera is held upright for a format. */
    public static boolean upright(String framing) {
        return aspect(framing) < 1;
    }

    /** Width over height of the whole picture from which a format is cut, held as it wants. */
    public static double pictureAspect(String framing, Sensor sensor) {
        double level = sensor.longMillimetres() / sensor.shortMillimetres();
        return upright(framing) ? 1 / level : level;
    }

    /** The largest piece of the format from the middle of that picture. */
    public static Crop crop(String framing, Sensor sensor) {
        double aspect = aspect(framing);
        double picture = pictureAspect(framing, sensor);
        double wide = Math.min(1, aspect / picture);
        double high = Math.min(1, picture / aspect);
        return new Crop((1 - wide) / 2, (1 + wide) / 2, (1 - high) / 2, (1 + high) / 2);
    }
}
