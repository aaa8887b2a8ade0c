package lookstep.server.look;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import lookstep.protocols.fixture.DimmingCurve;
import lookstep.protocols.fixture.Mode.Channel;
import lookstep.server.plan.Light;
import lookstep.simulator.model.colour.Chromaticity;
import lookstep.simulator.model.colour.Xyz;

/**
 * Emitters that are dimmed by 8-bit slots of their own have few codes left in the dark, and each
 * rounded by itself the colour goes astray. So the codes next to the wanted levels are tried
 * together, and those are taken that come nearest in colour and light.
 */
final class FewCodes {
    /** With more codes than this the nearest of each is good enough. */
    private static final int FEW = 100;

    /** About what is just seen, in u'v' and in stops (common practice): they weigh the same. */
    private static final double SEEN_UV = 0.0025;

    private static final double SEEN_STOPS = 0.1;

    /** Three codes for each emitter up to so many, then two. */
    private static final int THREE_CODES = 5;

    private final List<Xyz> full;
    private final List<double[]> candidates;
    private final Chromaticity wanted;
    private final double wantedLight;
    private final double[] tried;
    private double[] best;
    private double bestCost = Double.MAX_VALUE;

    private FewCodes(List<Xyz> full, List<double[]> candidates, double[] levels, Xyz wanted) {
        this.full = full;
        this.candidates = candidates;
        this.wanted = wanted.chromaticity();
        this.wantedLight = wanted.y();
        this.tried = new double[levels.length];
        this.best = levels;
    }

    /** Levels (0..1) that the light's slots can hold, or the same where there are codes enough. */
    static double[] nearest(Light light, double[] levels) {
        List<Channel> channels = light.mode().channels();
        if (channels.stream().anyMatch(Channel.Dimmer.class::isInstance)) {
            return levels;
        }
        DimmingCurve curve = light.fixture().curve();
        double[] codes = new double[levels.length];
        boolean[] coarse = new boolean[levels.length];
        double top = 0;
        for (Channel channel : channels) {
            if (channel instanceof Channel.Emitter e && e.bytes() == 1) {
                coarse[e.emitter()] = true;
                codes[e.emitter()] = 255 * curve.code(levels[e.emitter()]);
                top = Math.max(top, codes[e.emitter()]);
            }
        }
        if (top == 0 || top > FEW) {
            return levels;
        }
        List<double[]> candidates = new ArrayList<>();
        for (int i = 0; i < levels.length; i++) {
            candidates.add(
                    coarse[i] && levels[i] > 0
                            ? around(codes[i], curve, levels.length)
                            : new double[] {levels[i]});
        }
        FewCodes search =
                new FewCodes(
                        Photometry.emitters(light),
                        candidates,
                        levels,
                        Photometry.intensity(light, levels));
        search.from(0, 0, 0, 0);
        return search.best;
    }

    private static double[] around(double code, DimmingCurve curve, int emitters) {
        int first = emitters <= THREE_CODES ? (int) Math.round(code) - 1 : (int) Math.floor(code);
        int count = emitters <= THREE_CODES ? 3 : 2;
        return Arrays.stream(new int[] {first, first + 1, first + 2})
                .limit(count)
                .filter(c -> c >= 0 && c <= 255)
                .mapToDouble(c -> curve.light(c / 255.0))
                .toArray();
    }

    private void from(int emitter, double x, double y, double z) {
        if (emitter < tried.length) {
            Xyz e = full.get(emitter);
            for (double level : candidates.get(emitter)) {
                tried[emitter] = level;
                from(emitter + 1, x + level * e.x(), y + level * e.y(), z + level * e.z());
            }
        } else if (y > 0) {
            double uv = new Xyz(x, y, z).chromaticity().distanceUvPrime(wanted) / SEEN_UV;
            double stops = LightRange.stops(wantedLight, y) / SEEN_STOPS;
            double cost = uv * uv + stops * stops;
            if (cost < bestCost) {
                bestCost = cost;
                best = tried.clone();
            }
        }
    }
}
