package lookstep.simulator.gear;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import lookstep.simulator.model.colour.Srgb;
import org.junit.jupiter.api.Test;

class ToneCurveTest {
    @Test
    void itRisesFromBlackToWhiteInEachChannel() {
        for (int c = 0; c < 3; c++) {
            assertEquals(0, ToneCurve.CONTRASTY.signal(c, 0), 1e-12);
            assertEquals(1, ToneCurve.CONTRASTY.signal(c, 1), 1e-12);
            double last = 0;
            for (int i = 1; i <= 1000; i++) {
                double now = ToneCurve.CONTRASTY.signal(c, i / 1000.0);
                assertTrue(now > last, c + " at " + i);
                last = now;
            }
        }
    }

    @Test
    void itDeepensShadowsAndLiftsLights() {
        assertTrue(ToneCurve.CONTRASTY.signal(1, 0.05) < Srgb.encode(0.05) - 0.03);
        assertTrue(ToneCurve.CONTRASTY.signal(1, 0.5) > Srgb.encode(0.5) + 0.03);
        assertEquals(Srgb.encode(0.3), ToneCurve.PLAIN.signal(2, 0.3), 1e-12);
    }

    @Test
    void grainGoesThroughTheCurve() {
        BandOnSet set = BandOnSet.usual();
        double[] key = BandOnSet.levels(0, 0.5, 1, 0.5);
        BufferedImage plain = set.exposed(1, key, BandOnSet.camera(), ToneCurve.PLAIN, 7);
        BufferedImage style = set.exposed(1, key, BandOnSet.camera(), ToneCurve.CONTRASTY, 7);
        BufferedImage clean = set.clean(1, key, BandOnSet.camera(), ToneCurve.CONTRASTY);
        assertNotEquals(plain.getRGB(300, 200), style.getRGB(300, 200));
        double off = 0;
        int other = 0;
        for (int x = 0; x < 600; x++) {
            int is = style.getRGB(x, 250) >> 8 & 255;
            int should = clean.getRGB(x, 250) >> 8 & 255;
            off += (is - should) / 600.0;
            other += is == should ? 0 : 1;
        }
        assertEquals(0, off, 0.5, "grain has no mean");
        assertTrue(other > 30, "and is there: " + other);
    }

    @Test
    void curvesThatFallAreRefused() {
        assertThrows(IllegalArgumentException.class, () -> new ToneCurve.Channel(1, 1));
        assertThrows(IllegalArgumentException.class, () -> new ToneCurve.Channel(0.2, 9));
    }
}
