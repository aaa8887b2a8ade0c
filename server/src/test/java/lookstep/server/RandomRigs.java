package lookstep.server;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Random;
import java.util.stream.IntStream;
import lookstep.protocols.fixture.Fixture;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.protocols.fixture.Mode;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.Look.Blend;
import lookstep.server.plan.Look.Colour;
import lookstep.server.plan.Look.Level;
import lookstep.server.plan.Look.Setting;
import lookstep.server.plan.Modifier;
import lookstep.server.plan.ShootPlan;
import lookstep.simulator.model.space.Vec3;

/** Rigs and looks that nobody would think of, the same ones for the same seed. */
public final class RandomRigs {
    private static final int MOST_LIGHTS = 40;
    private static final List<Modifier> MODIFIERS =
            List.of(
                    new Modifier("bare", 0, 1, 0, false),
                    new Modifier("softbox", 0.9, 0.6, 90, false),
                    new Modifier("grid", 0, 0.5, 30, true));

    private final Random random;

    public RandomRigs(long seed) {
        random = new Random(seed);
    }

    /** A plan like the small ones but for its lights: these, and no look yet. */
    public static ShootPlan withRig(List<Light> rig) {
        ShootPlan base = TestPlans.threeShots();
        return new ShootPlan(
                base.title(),
                base.place(),
                base.house(),
                base.windowSeconds(),
                base.people(),
                rig,
                List.of(),
                base.shots());
    }

    /**
     * One light of the kind, at this address; where it stands is left to chance.
     *
     * @param slot its first, 1..512
     */
    public Light light(String name, Fixture fixture, Mode mode, int universe, int slot) {
        return new Light(
                name,
                fixture,
                mode,
                universe,
                slot,
                new Vec3(between(-4, 4), between(-6, 3), between(0.2, 4)),
                new Vec3(between(-1, 1), between(-1, 1), between(0.5, 2)),
                any(MODIFIERS));
    }

    /** 1 to 40 lights of any built-in kind and mode, anywhere in three universes, none shared. */
    public ShootPlan plan() {
        Map<Integer, BitSet> taken = new LinkedHashMap<>();
        List<Light> rig = new ArrayList<>();
        int wanted = 1 + random.nextInt(MOST_LIGHTS);
        while (rig.size() < wanted) {
            Fixture fixture = any(GenericFixtures.all());
            Mode mode = any(fixture.modes());
            int universe = 1 + random.nextInt(3);
            BitSet used = taken.computeIfAbsent(universe, u -> new BitSet());
            OptionalInt slot = free(used, mode.slots());
            if (slot.isPresent()) {
                int first = slot.getAsInt();
                used.set(first, first + mode.slots());
                rig.add(light("light " + rig.size(), fixture, mode, universe, first));
            }
        }
        return withRig(rig);
    }

    /** Often beside a neighbour or at either end, where the slips are. */
    private OptionalInt free(BitSet used, int slots) {
        int last = 513 - slots;
        List<Integer> starts =
                IntStream.rangeClosed(1, last)
                        .filter(s -> used.get(s, s + slots).isEmpty())
                        .boxed()
                        .toList();
        if (starts.isEmpty()) {
            return OptionalInt.empty();
        }
        return switch (random.nextInt(4)) {
            case 0 -> OptionalInt.of(starts.get(0));
            case 1 -> OptionalInt.of(starts.get(starts.size() - 1));
            default -> OptionalInt.of(any(starts));
        };
    }

    /** Some lights on and some off, one of them the key, the others in any words a plan has. */
    public Look look(ShootPlan plan) {
        Map<String, Setting> lights = new LinkedHashMap<>();
        String key = any(plan.rig()).name();
        for (Light light : plan.rig()) {
            if (light.name().equals(key)) {
                lights.put(key, new Setting(absolute(), colour(), any(Blend.values())));
            } else if (random.nextInt(4) > 0) {
                lights.put(light.name(), setting());
            }
        }
        return new Look(
                "any",
                new CameraSettings(8, 1 / 125.0, 3200, between(2500, 7000)),
                between(0, 5),
                key,
                lights);
    }

    /** The same look but for one light, which may be on, off or otherwise. */
    public Look changed(Look look, String light) {
        Map<String, Setting> lights = new LinkedHashMap<>(look.lights());
        if (light.equals(look.key())) {
            lights.put(light, new Setting(absolute(), colour(), any(Blend.values())));
        } else if (lights.containsKey(light) && random.nextInt(4) == 0) {
            lights.remove(light);
        } else {
            lights.put(light, setting());
        }
        return new Look(look.name(), look.camera(), look.fadeSeconds(), look.key(), lights);
    }

    private Setting setting() {
        Level level = random.nextBoolean() ? new Level.StopsFromKey(between(-8, 8)) : absolute();
        return new Setting(level, colour(), any(Blend.values()));
    }

    private Level absolute() {
        return switch (random.nextInt(4)) {
            case 0 -> new Level.Percent(100);
            case 1 -> new Level.Percent(0);
            case 2 -> new Level.Percent(between(0, 100));
            default -> new Level.Lux(between(0.1, 20_000));
        };
    }

    private Colour colour() {
        // any point of the triangle x + y < 1, most of which no lamp can make
        double x = between(0.001, 0.998);
        return random.nextBoolean()
                ? new Colour.Temperature(between(1500, 12_000))
                : new Colour.Xy(x, between(0.001, 0.999 - x));
    }

    public double between(double low, double high) {
        return low + random.nextDouble() * (high - low);
    }

    public <T> T any(List<T> some) {
        return some.get(random.nextInt(some.size()));
    }

    private <T> T any(T[] some) {
        return some[random.nextInt(some.length)];
    }
}
