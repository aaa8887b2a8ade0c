package lookstep.simulator.model.colour;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;

/**
 * The CIE 1931 2-degree standard observer, 360 to 830 nm in steps of 5 nm (CIE DOI
 * 10.25039/CIE.DS.xvudnb9b). Sums over the table are the integrals; 5 nm differs from 1 nm by less
 * than 2e-6 in chromaticity for smooth spectra.
 */
public final class Cie1931 {
    private static final String TABLE = "cie1931-2deg-5nm.csv";
    private static final double[][] ROWS = load();

    private Cie1931() {}

    /**
     * Tristimulus values of a spectrum.
     *
     * @param power relative spectral power at a wavelength in nanometres
     * @param toNanometres last wavelength counted, 360..830
     */
    public static Xyz of(DoubleUnaryOperator power, int toNanometres) {
        double x = 0;
        double y = 0;
        double z = 0;
        for (double[] row : ROWS) {
            if (row[0] > toNanometres) {
                break;
            }
            double p = power.applyAsDouble(row[0]);
            x += p * row[1];
            y += p * row[2];
            z += p * row[3];
        }
        return new Xyz(x, y, z);
    }

    /** Tristimulus values of a spectrum over the whole table. */
    public static Xyz of(DoubleUnaryOperator power) {
        return of(power, 830);
    }

    private static double[][] load() {
        List<double[]> rows = new ArrayList<>();
        try (InputStream in = Cie1931.class.getResourceAsStream(TABLE)) {
            if (in == null) {
                throw new IllegalStateException(TABLE + " is missing from the jar");
            }
            BufferedReader lines =
                    new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8));
            for (String line = lines.readLine(); line != null; line = lines.readLine()) {
                if (!line.startsWith("#")) {
                    String[] cells = line.split(",", -1);
                    double[] row = new double[4];
                    for (int i = 0; i < 4; i++) {
                        row[i] = Double.parseDouble(cells[i]);
                    }
                    rows.add(row);
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return rows.toArray(double[][]::new);
    }
}
