package lookstep.server.pictured;

import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiFunction;
import java.util.stream.IntStream;
import javax.imageio.ImageIO;
import lookstep.server.look.LookLevels;
import lookstep.server.look.RigLevels;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.House;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.prediction.Predictions;
import lookstep.simulator.model.plates.PlateStack;
import lookstep.simulator.model.plates.PlateStack.Doubt;

/** Pictures of looks, large and small. Safe for any thread. */
public final class LookPictures {
    private static final int MOST_KEPT = 60;
    private static final int SMALL_WIDTH = 240;

    private final Predictions predictions;
    private final BiFunction<ShootPlan, Look, Optional<PlateSource>> plates;
    private final Map<Key, byte[]> kept =
            new LinkedHashMap<>(64, 0.75f, true) {
                @Override
                protected boolean removeEldestEntry(Map.Entry<Key, byte[]> eldest) {
                    return size() > MOST_KEPT;
                }
            };

    /** A picture from plates hangs on these, and not on who is in the shot. */
    private record Key(String plates, Look look, List<Light> rig, House house, boolean small) {}

    /** How large. */
    public enum Size {
        LARGE,
        SMALL
    }

    /**
     * Where the picture of a look comes from.
     *
     * @param plates the set of plates; empty if the model makes it
     * @param shot id of the shot whose camera and people the plates are of; empty for the model
     * @param says for whoever looks at it
     */
    public record Origin(String plates, String shot, String says) {
        /** Nobody has photographed anything of it. */
        public static final Origin MODEL = new Origin("", "", "computed, not photographed");

        public boolean fromPlates() {
            return !plates.isEmpty();
        }
    }

    /** A JPEG, and where it comes from. */
    // An array in a record: it is sent, not compared.
    @SuppressWarnings("ArrayRecordComponent")
    public record Pictured(byte[] jpeg, Origin origin) {}

    /**
     * @param plates those from which a look of a plan can be summed now, if there are any
     */
    public LookPictures(
            Predictions predictions, BiFunction<ShootPlan, Look, Optional<PlateSource>> plates) {
        this.predictions = predictions;
        this.plates = plates;
    }

    /** Where the picture of a look would come from now. */
    public Origin origin(ShootPlan plan, Look look) {
        return origin(plates.apply(plan, look));
    }

    private static Origin origin(Optional<PlateSource> source) {
        return source.map(s -> new Origin(s.id(), s.shot(), "from plates, " + s.says()))
                .orElse(Origin.MODEL);
    }

    /**
     * The picture of a look.
     *
     * @param shot the people and the camera of a picture from the model; from plates it is the
     *     picture that the plates were taken of
     */
    public Pictured picture(ShootPlan plan, Shot shot, Look look, Size size) {
        Optional<PlateSource> source = plates.apply(plan, look);
        boolean small = size == Size.SMALL;
        if (source.isEmpty()) {
            return new Pictured(
                    small
                            ? predictions.small(plan, shot, look)
                            : predictions.picture(plan, shot, look),
                    Origin.MODEL);
        }
        Key key = new Key(source.get().id(), look, plan.rig(), plan.house(), small);
        byte[] made;
        synchronized (kept) {
            made = kept.get(key);
        }
        if (made == null) {
            BufferedImage picture = sum(plan, look, source.get().stack());
            made = jpeg(small ? smaller(picture) : picture);
            synchronized (kept) {
                kept.put(key, made);
            }
        }
        return new Pictured(made, origin(source));
    }

    /** How far a picture from plates is to be trusted; empty if it would be from the model. */
    public Optional<Doubt> doubt(ShootPlan plan, Look look) {
        return plates.apply(plan, look)
                .map(
                        s ->
                                s.stack()
                                        .doubt(
                                                1,
                                                levels(plan, look),
                                                1 / LookLevels.meteredLux(look.camera())));
    }

    private static BufferedImage sum(ShootPlan plan, Look look, PlateStack stack) {
        CameraSettings camera = look.camera();
        return stack.picture(
                1, levels(plan, look), 1 / LookLevels.meteredLux(camera), camera.kelvin());
    }

    /** Of every emitter of the rig, one light after the other; 0..1. */
    public static double[] levels(ShootPlan plan, Look look) {
        RigLevels levels = LookLevels.of(plan, look).levels();
        return IntStream.range(0, levels.size())
                .mapToObj(levels::of)
                .flatMapToDouble(Arrays::stream)
                .toArray();
    }

    private static BufferedImage smaller(BufferedImage picture) {
        int height = Math.round((float) SMALL_WIDTH * picture.getHeight() / picture.getWidth());
        BufferedImage small = new BufferedImage(SMALL_WIDTH, height, BufferedImage.TYPE_INT_RGB);
        Graphics2D g = small.createGraphics();
        g.setRenderingHint(
                RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BILINEAR);
        // Bilinear alone would leave most pixels out: halve first.
        BufferedImage from = picture;
        while (from.getWidth() >= 2 * SMALL_WIDTH) {
            BufferedImage half =
                    new BufferedImage(
                            from.getWidth() / 2,
                            Math.max(1, from.getHeight() / 2),
                            BufferedImage.TYPE_INT_RGB);
            Graphics2D h = half.createGraphics();
            h.setRenderingHint(
                    RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BILINEAR);
            h.drawImage(from, 0, 0, half.getWidth(), half.getHeight(), null);
            h.dispose();
            from = half;
        }
        g.drawImage(from, 0, 0, SMALL_WIDTH, height, null);
        g.dispose();
        return small;
    }

    private static byte[] jpeg(BufferedImage image) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try {
            ImageIO.write(image, "jpeg", out);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out.toByteArray();
    }
}
