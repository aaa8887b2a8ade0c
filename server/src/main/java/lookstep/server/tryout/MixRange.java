package lookstep.server.tryout;

import java.util.List;
import lookstep.server.look.Photometry;
import lookstep.server.plan.Light;
import lookstep.server.plan.ShootPlan;
import lookstep.simulator.model.colour.ColourTemperature;

/**
 * How far one light can be set.
 *
 * @param name of the light
 * @param leastUnder the smallest light above dark that its slots can set, stops under its most
 * @param warmestKelvin lowest colour temperature of its own
 * @param coldestKelvin highest; the same as the lowest if it has only one
 * @param hues whether it mixes colours
 */
public record MixRange(
        String name, double leastUnder, double warmestKelvin, double coldestKelvin, boolean hues) {
    private static final int COLOURS_FROM = 3;
    private static final double WARMEST = 2000;
    private static final double COLDEST = 10_000;
    private static final double MOST_UNDER = 12;

    /** Of every light, in the rig's order. */
    public static List<MixRange> of(ShootPlan plan) {
        return plan.rig().stream().map(MixRange::of).toList();
    }

    private static MixRange of(Light light) {
        double floor = light.mode().floor(light.fixture().curve());
        double under = floor > 0 ? Math.min(MOST_UNDER, -Math.log(floor) / Math.log(2)) : 0;
        boolean hues = light.fixture().emitters().size() >= COLOURS_FROM;
        List<Double> whites =
                Photometry.emitters(light).stream()
                        .map(e -> ColourTemperature.of(e.chromaticity()))
                        .filter(ColourTemperature::useful)
                        .map(ColourTemperature::kelvin)
                        .sorted()
                        .toList();
        return hues || whites.isEmpty()
                ? new MixRange(light.name(), under, WARMEST, COLDEST, hues)
                : new MixRange(
                        light.name(), under, whites.get(0), whites.get(whites.size() - 1), false);
    }
}
