package lookstep.server.prediction;

import static org.junit.jupiter.api.Assertions.assertEquals;

import lookstep.server.plan.Sensor;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FormatsTest {
    /** By hand: 4:5 upright is 24 x 30 of 24 x 36 mm; A4 (ISO 216) 24 x 33.94; 4:5 of 13 x 17.3. */
    @ParameterizedTest
    @CsvSource({
        "landscape 3:2, 36, 24, 1.5, 1, 1",
        "landscape 16:9, 36, 24, 1.5, 1, 0.84375",
        "landscape 3:2, 17.3, 13, 1.33077, 1, 0.88718",
        "square, 36, 24, 1.5, 0.66667, 1",
        "spread, 36, 24, 1.5, 0.94276, 1",
        "portrait 4:5, 36, 24, 0.66667, 1, 0.83333",
        "cover, 36, 24, 0.66667, 1, 0.94286",
        "portrait 4:5, 17.3, 13, 0.75145, 1, 0.93931"
    })
    void uprightFormatsAreCutFromAnUprightPicture(
            String framing, double longs, double shorts, double aspect, double wide, double high) {
        Sensor sensor = new Sensor(longs, shorts);
        Formats.Crop crop = Formats.crop(framing, sensor);
        assertEquals(aspect, Formats.pictureAspect(framing, sensor), 1e-5);
        assertEquals(wide, crop.right() - crop.left(), 1e-4);
        assertEquals(high, crop.bottom() - crop.top(), 1e-4);
        assertEquals(0.5, (crop.left() + crop.right()) / 2, 1e-12);
        assertEquals(0.5, (crop.top() + crop.bottom()) / 2, 1e-12);
    }
}
