package lookstep.server.pictured;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javax.imageio.ImageIO;
import lookstep.server.TestPlans;
import lookstep.server.look.LookLevels;
import lookstep.server.pictured.LookPictures.Pictured;
import lookstep.server.pictured.LookPictures.Size;
import lookstep.server.plan.Look;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.prediction.Predictions;
import lookstep.simulator.model.plates.CodedPicture;
import lookstep.simulator.model.plates.PlateStack;
import lookstep.simulator.model.plates.Response;
import org.junit.jupiter.api.Test;

class LookPicturesTest {
    private static final int WIDTH = 600;
    private static final int HEIGHT = 400;

    /** One white light, so that its plate and the house are all there is. */
    private final ShootPlan plan = TestPlans.oneDimmer();

    private final Look look = plan.looks().get(0);
    private final Shot shot = plan.shots().get(0);

    private static CodedPicture grey(int code) {
        BufferedImage image = new BufferedImage(WIDTH, HEIGHT, BufferedImage.TYPE_INT_RGB);
        for (int y = 0; y < HEIGHT; y++) {
            for (int x = 0; x < WIDTH; x++) {
                image.setRGB(x, y, code << 16 | code << 8 | code);
            }
        }
        return CodedPicture.of(image);
    }

    /** The house is black, the light alone, as the look has it, is mid grey. */
    private PlateSource plates() {
        double scale = 1 / LookLevels.meteredLux(look.camera());
        List<PlateStack.Taken> taken = new ArrayList<>();
        taken.add(new PlateStack.Taken(grey(0), new double[] {0}, scale));
        taken.add(new PlateStack.Taken(grey(118), new double[] {1}, scale));
        return new PlateSource(
                "7",
                "only",
                "taken 20:31",
                PlateStack.of(Response.SRGB, look.camera().kelvin(), taken));
    }

    private static BufferedImage read(Pictured pictured) throws IOException {
        return ImageIO.read(new ByteArrayInputStream(pictured.jpeg()));
    }

    @Test
    void withPlatesTheyAreThePictureAndItSaysSo() throws IOException {
        PlateSource plates = plates();
        LookPictures pictures = new LookPictures(new Predictions(), (p, l) -> Optional.of(plates));
        Pictured large = pictures.picture(plan, shot, look, Size.LARGE);
        assertTrue(large.origin().fromPlates());
        assertEquals("from plates, taken 20:31", large.origin().says());
        assertEquals(WIDTH, read(large).getWidth());
        int code = read(large).getRGB(300, 200) & 0xff;
        assertEquals(118, code, 2, "the light is on in full, as in its plate");
        BufferedImage small = read(pictures.picture(plan, shot, look, Size.SMALL));
        assertEquals(240, small.getWidth());
        assertEquals(160, small.getHeight());
        assertEquals(118, small.getRGB(120, 80) & 0xff, 2);
    }

    @Test
    void withoutPlatesTheModelMakesItAndItSaysSo() throws IOException {
        Predictions predictions = new Predictions();
        LookPictures pictures = new LookPictures(predictions, (p, l) -> Optional.empty());
        Pictured small = pictures.picture(plan, shot, look, Size.SMALL);
        assertFalse(small.origin().fromPlates());
        assertEquals("computed, not photographed", small.origin().says());
        assertArrayEquals(predictions.small(plan, shot, look), small.jpeg());
        assertEquals(240, read(small).getWidth());
    }
}
