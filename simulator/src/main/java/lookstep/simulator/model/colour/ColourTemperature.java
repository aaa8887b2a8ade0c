package lookstep.simulator.model.colour;

/**
 * Correlated colour temperature and how far off the Planckian locus a chromaticity lies.
 *
 * @param kelvin temperature of the nearest point of the locus in CIE 1960 uv, within 1000..25000
 * @param duv distance to it in CIE 1960 uv; positive is above the locus (greenish), negative below
 *     (pinkish). Beyond {@link #MOST_DUV} the temperature says little
 */
public record ColourTemperature(double kelvin, double duv) {
    /**
     * Beyond this a colour is no white, and has no useful temperature (CIE 15:2004, from memory).
     */
    public static final double MOST_DUV = 0.05;

    /** The nearest point of the locus; one of its ends if that is the nearest. */
    public static ColourTemperature of(Chromaticity c) {
        double mired = Locus.nearest(c.u(), c.v());
        Locus.Point p = Locus.at(mired);
        double distance = Math.hypot(p.u() - c.u(), p.v() - c.v());
        // The locus runs from blue at the low-v end to red; above it is the side of greater v.
        return new ColourTemperature(Mired.kelvin(mired), c.v() >= p.v() ? distance : -distance);
    }

    /** Whether the temperature says something of the colour. */
    public boolean useful() {
        return Math.abs(duv) <= MOST_DUV;
    }

    /**
     * The chromaticity that has this temperature and distance: from the point of the locus straight
     * off it, as far as the Duv says.
     *
     * @throws IllegalArgumentException outside 1000 to 25000 K, or too far off to be a colour
     */
    public Chromaticity chromaticity() {
        if (!(kelvin >= Planck.MIN_KELVIN && kelvin <= Planck.MAX_KELVIN)) {
            throw Planck.outside(kelvin);
        }
        Locus.Point p = Locus.at(Mired.of(kelvin));
        double slope = Math.hypot(p.du(), p.dv());
        return Chromaticity.ofUv1960(p.u() - duv * p.dv() / slope, p.v() + duv * p.du() / slope);
    }
}
