package lookstep.simulator.model.colour;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class SpectrumTest {
    @Test
    void isStraightBetweenItsPointsAndNothingBesideThem() {
        Spectrum spectrum =
                new Spectrum(
                        List.of(
                                new Spectrum.Point(500, 1),
                                new Spectrum.Point(520, 3),
                                new Spectrum.Point(520, 7),
                                new Spectrum.Point(530, 0)));
        assertEquals(0, spectrum.at(499.9));
        assertEquals(1, spectrum.at(500));
        assertEquals(2, spectrum.at(510), 1e-12);
        assertEquals(3, spectrum.at(520), "of two at one wavelength the first");
        assertEquals(3.5, spectrum.at(525), 1e-12);
        assertEquals(0, spectrum.at(530.1));
    }

    /** CIE illuminant E: equal energy is one third each (CIE 15). */
    @Test
    void equalEnergyIsTheMiddle() {
        Spectrum equal =
                new Spectrum(
                        IntStream.rangeClosed(0, 47)
                                .mapToObj(i -> new Spectrum.Point(360 + 10 * i, 1))
                                .toList());
        Chromaticity c = equal.xyz().chromaticity();
        assertEquals(1.0 / 3, c.x(), 1e-4);
        assertEquals(1.0 / 3, c.y(), 1e-4);
    }
}
