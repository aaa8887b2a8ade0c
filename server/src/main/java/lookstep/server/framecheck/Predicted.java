package lookstep.server.framecheck;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Optional;
import javax.imageio.ImageIO;
import lookstep.server.plan.Look;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.prediction.Predictions;

/** What the plan means a picture to look like. */
@FunctionalInterface
public interface Predicted {
    /**
     * The computed picture of a shot on a look: sRGB, its longer side the longer side of the
     * sensor, any size.
     *
     * @return empty if there is none; then light is judged against a metered exposure
     */
    Optional<BufferedImage> picture(Shot shot, Look look);

    /** Those that the pages show. The first of a shot takes a while. */
    static Predicted of(ShootPlan plan, Predictions predictions) {
        return (shot, look) -> {
            try {
                return Optional.ofNullable(
                        ImageIO.read(
                                new ByteArrayInputStream(predictions.picture(plan, shot, look))));
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        };
    }
}
