package lookstep.simulator.model.colour;

import java.util.List;

/**
 * What to take for a chromaticity that emitters do not enclose: the nearest on their edge in CIE
 * 1976 u'v'.
 *
 * <p>Two emitters enclose only the straight line between them, which sags below the Planckian
 * locus; a wanted white then means the mix with the same correlated colour temperature: the line is
 * cut with the isotherm of the target (the perpendicular to the locus in CIE 1960 uv), which is
 * exact by the definition of that temperature. Targets further than {@link
 * ColourTemperature#MOST_DUV} from the locus have no useful temperature and take the nearest point
 * instead.
 */
final class NearestColour {
    private NearestColour() {}

    /** Nearest to the target on the edge of what the emitters enclose; Y is 1. */
    static Xyz of(List<Xyz> emitters, Chromaticity target) {
        int n = emitters.size();
        if (n == 2) {
            ColourTemperature wanted = ColourTemperature.of(target);
            Locus.Point on = Locus.at(Mired.of(wanted.kelvin()));
            if (wanted.useful() && twoWhites(emitters, on)) {
                return onIsotherm(emitters.get(0), emitters.get(1), on);
            }
        }
        Xyz best = null;
        double bestDistance = Double.MAX_VALUE;
        for (int i = 0; i < n; i++) {
            for (int j = i; j < n; j++) {
                Chromaticity p = emitters.get(i).chromaticity();
                Chromaticity q = emitters.get(j).chromaticity();
                double du = q.uPrime() - p.uPrime();
                double dv = q.vPrime() - p.vPrime();
                double square = du * du + dv * dv;
                double t =
                        square == 0
                                ? 0
                                : ((target.uPrime() - p.uPrime()) * du
                                                + (target.vPrime() - p.vPrime()) * dv)
                                        / square;
                Xyz c = between(emitters.get(i), emitters.get(j), t);
                double distance = c.chromaticity().distanceUvPrime(target);
                if (distance < bestDistance) {
                    bestDistance = distance;
                    best = c;
                }
            }
        }
        return best;
    }

    /** Whether the line between them runs along the locus rather than across it, as a tint does. */
    private static boolean twoWhites(List<Xyz> two, Locus.Point on) {
        Chromaticity p = two.get(0).chromaticity();
        Chromaticity q = two.get(1).chromaticity();
        double along = Math.abs((q.u() - p.u()) * on.du() + (q.v() - p.v()) * on.dv());
        double across = Math.abs((q.v() - p.v()) * on.du() - (q.u() - p.u()) * on.dv());
        return along > across;
    }

    /** Where the line between two emitters has the wanted temperature; an end if it never has. */
    private static Xyz onIsotherm(Xyz first, Xyz second, Locus.Point on) {
        double tu = on.du();
        double tv = on.dv();
        Chromaticity p = first.chromaticity();
        Chromaticity q = second.chromaticity();
        double down = (q.u() - p.u()) * tu + (q.v() - p.v()) * tv;
        double t = down == 0 ? 0 : ((on.u() - p.u()) * tu + (on.v() - p.v()) * tv) / down;
        return between(first, second, t);
    }

    /** The light whose point in u'v' (or 1960 uv) divides the line at {@code t}, 0..1; Y is 1. */
    private static Xyz between(Xyz first, Xyz second, double t) {
        double share = Math.min(1, Math.max(0, t));
        // Points in uv mix by the weight X + 15 Y + 3 Z, the common denominator of u and v.
        double w1 = first.x() + 15 * first.y() + 3 * first.z();
        double w2 = second.x() + 15 * second.y() + 3 * second.z();
        Xyz c = first.times((1 - share) / w1).plus(second.times(share / w2));
        return c.times(1 / c.y());
    }
}
