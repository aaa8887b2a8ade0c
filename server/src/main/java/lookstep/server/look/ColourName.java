package lookstep.server.look;

import java.util.List;
import lookstep.simulator.model.colour.Chromaticity;
import lookstep.simulator.model.colour.HueSaturation;
import lookstep.simulator.model.colour.Srgb;
import lookstep.simulator.model.colour.WhiteBalance;

/** What to call a light's colour as the camera sees it. */
final class ColourName {
    /** Every 30 degrees of the hue of HSV in sRGB signals. */
    private static final List<String> HUES =
            List.of(
                    "red",
                    "amber",
                    "yellow",
                    "yellow-green",
                    "green",
                    "blue-green",
                    "cyan",
                    "sky blue",
                    "blue",
                    "violet",
                    "magenta",
                    "rose");

    private static final double WHITE = 0.05;
    private static final double PALE = 0.4;
    private static final double DEEP = 0.85;

    private ColourName() {}

    /** One of twelve hues, pale or deep where it is; or white. */
    static String of(Chromaticity light, WhiteBalance camera) {
        double[] rgb = camera.linearSrgb(light.toXyz(1));
        double most = Math.max(rgb[0], Math.max(rgb[1], rgb[2]));
        double[] signal = new double[3];
        for (int i = 0; i < 3; i++) {
            signal[i] = Srgb.encode(Math.max(0, rgb[i] / most));
        }
        HueSaturation seen = HueSaturation.of(signal);
        if (seen.saturation() < WHITE) {
            return "white";
        }
        String hue = HUES.get((int) Math.round(seen.hueDegrees() / 30) % HUES.size());
        return seen.saturation() < PALE
                ? "pale " + hue
                : seen.saturation() >= DEEP ? "deep " + hue : hue;
    }
}
