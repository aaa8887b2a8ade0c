package lookstep.server;

import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Supplier;
import lookstep.server.checks.MeasuredLight;
import lookstep.server.measuring.MeasuredScene;
import lookstep.server.measuring.Measurements;
import lookstep.server.pictured.PlateSource;
import lookstep.server.plan.Look;
import lookstep.server.plan.RigHash;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plates.MeasuredSet;

/** The plates that hold now, for whatever asks: pictures, suggestions, checks. Any thread. */
final class PlateSources {
    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

    private final Supplier<Optional<MeasuredSet>> plates;
    private final ZoneId zone;
    private final Measurements measurements = new Measurements();

    PlateSources(Supplier<Optional<MeasuredSet>> plates, ZoneId zone) {
        this.plates = plates;
        this.zone = zone;
    }

    /** Those from which a look of a plan can be summed: taken with its lights where it has them. */
    Optional<PlateSource> source(ShootPlan plan, Look look) {
        return plates.get()
                .filter(s -> s.hangsOn().equals(RigHash.of(plan.placed(look).rig())))
                .map(s -> new PlateSource(version(s), s.shot(), says(plan, s), s.stack()));
    }

    /** What is found in them; empty if there are none of the rig as the plan has it. */
    Optional<MeasuredScene> scene(ShootPlan plan) {
        return plates.get()
                .filter(s -> s.hangsOn().equals(RigHash.of(plan.rig())))
                .filter(s -> plan.shot(s.shot()).isPresent())
                .filter(s -> plan.looks().stream().anyMatch(l -> l.name().equals(s.look())))
                .flatMap(
                        s ->
                                measurements.of(
                                        version(s),
                                        s,
                                        plan,
                                        "measured from plates, " + says(plan, s)));
    }

    /** Tells them from others; empty if there are none. */
    String id() {
        return plates.get().map(PlateSources::version).orElse("");
    }

    /** What is uncertain about what is found in them, as far as that is worked out. */
    List<String> doubts() {
        return plates.get()
                .flatMap(s -> measurements.known(version(s)))
                .map(MeasuredScene::doubts)
                .orElse(List.of());
    }

    /** A step may have been taken again. */
    private static String version(MeasuredSet set) {
        return set.id() + "-" + Long.toString(set.whenEpochMillis(), 36);
    }

    /** What they say of each light. */
    MeasuredLight light(ShootPlan plan) {
        return scene(plan).map(MeasuredScene::light).orElse(MeasuredLight.NONE);
    }

    private String says(ShootPlan plan, MeasuredSet set) {
        return "taken %s on ‘%s’%s"
                .formatted(
                        TIME.format(Instant.ofEpochMilli(set.whenEpochMillis()).atZone(zone)),
                        plan.shot(set.shot()).map(Shot::name).orElse(set.shot()),
                        set.standIn() ? " with a stand-in" : "");
    }
}
