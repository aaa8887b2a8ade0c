package lookstep.server.checks;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;
import lookstep.server.checks.Likeness.Appearance;
import lookstep.server.plan.Circumstances;
import lookstep.server.plan.House;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.Person;
import lookstep.server.plan.Place;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;

/**
 * All checks of a plan. One of these keeps what it worked out, so that after an edit only the shots
 * that it touches are worked out again. A check that fails says so and stops no other.
 */
public final class PlanChecks {
    private static final int MOST_KEPT = 600;

    /** Checks of one shot. */
    private interface ShotCheck {
        List<Finding> of(Staged staged);
    }

    private record Named(Kind kind, ShotCheck check) {}

    private static final List<Named> OF_SHOTS =
            List.of(
                    new Named(Kind.DEPTH_OF_FIELD, DepthCheck::of),
                    new Named(Kind.EXPOSURE, ExposureCheck::of),
                    new Named(Kind.SHUTTER, ShutterCheck::of),
                    new Named(Kind.FLICKER, FlickerCheck::of),
                    new Named(Kind.SEPARATION, SeparationCheck::of),
                    new Named(Kind.ROOM, RoomCheck::of),
                    new Named(Kind.FRAMING, FramingCheck::of));

    /** What plates say something of. */
    private static final Set<Kind> BY_LIGHT = EnumSet.of(Kind.EXPOSURE, Kind.SEPARATION, Kind.ROOM);

    /** All that a shot's findings hang on. */
    private record Key(
            Shot shot,
            Look look,
            List<Person> people,
            Place place,
            House house,
            List<Light> rig,
            Circumstances around,
            MeasuredLight measured) {
        static Key of(ShootPlan plan, Shot shot, MeasuredLight measured) {
            return new Key(
                    shot,
                    plan.look(shot.look()),
                    shot.people().stream().map(plan::person).toList(),
                    plan.place(),
                    plan.house(),
                    plan.rig(),
                    plan.around(),
                    measured);
        }
    }

    /** What a shot came to. */
    private record Kept(List<Finding> findings, Optional<Appearance> appearance) {}

    private final Map<Key, Kept> kept =
            new LinkedHashMap<>(64, 0.75f, true) {
                @Override
                protected boolean removeEldestEntry(Map.Entry<Key, Kept> eldest) {
                    return size() > MOST_KEPT;
                }
            };

    /** All checks, nothing kept. */
    public static Report of(ShootPlan plan) {
        return new PlanChecks().check(plan);
    }

    /** All checks of the plan at the place that it is at, by computation alone. */
    public Report check(ShootPlan plan) {
        return check(plan, MeasuredLight.NONE);
    }

    /** The same, with what plates say of the lights. */
    public synchronized Report check(ShootPlan plan, MeasuredLight measured) {
        List<Finding> all = new ArrayList<>();
        List<Appearance> appearances = new ArrayList<>();
        for (Shot shot : plan.shots()) {
            Kept one =
                    kept.computeIfAbsent(
                            Key.of(plan, shot, measured), k -> shot(plan, shot, measured));
            all.addAll(one.findings());
            one.appearance().ifPresent(appearances::add);
        }
        for (Look look : plan.looks()) {
            all.addAll(
                    safely(
                            Kind.COLOUR,
                            Subject.look(look.name()),
                            () -> ColourCheck.of(plan, look)));
            all.addAll(
                    safely(Kind.LIGHT, Subject.look(look.name()), () -> LightCheck.of(plan, look)));
        }
        all.addAll(
                safely(
                        Kind.VARIETY,
                        Subject.PLAN,
                        () -> VarietyCheck.of(plan, Likeness.ofLooks(appearances))));
        all.addAll(safely(Kind.ADDRESSES, Subject.PLAN, () -> AddressCheck.of(plan)));
        all.addAll(safely(Kind.POWER, Subject.PLAN, () -> PowerCheck.of(plan)));
        all.addAll(safely(Kind.HEAT, Subject.PLAN, () -> HeatCheck.of(plan)));
        all.addAll(safely(Kind.FLASHING, Subject.PLAN, () -> FlashingCheck.of(plan)));
        all.addAll(safely(Kind.PLACE, Subject.PLAN, () -> PlaceCheck.of(plan)));
        all.sort(
                Comparator.comparing(Finding::kind)
                        .thenComparing(Finding::weight, Comparator.reverseOrder()));
        return new Report(all);
    }

    private static Kept shot(ShootPlan plan, Shot shot, MeasuredLight measured) {
        Subject subject = new Subject(shot.id(), shot.look(), "", "");
        Staged staged;
        try {
            staged = Staged.of(plan, shot, measured);
        } catch (RuntimeException e) {
            return new Kept(List.of(failed(Kind.FRAMING, subject, e)), Optional.empty());
        }
        List<Finding> all = new ArrayList<>();
        for (Named n : OF_SHOTS) {
            safely(n.kind(), subject, () -> n.check().of(staged)).stream()
                    .map(
                            f ->
                                    measured.measured() && BY_LIGHT.contains(n.kind())
                                            ? said(f, measured)
                                            : f)
                    .forEach(all::add);
        }
        Optional<Appearance> appearance;
        try {
            appearance = Optional.of(Appearance.of(staged));
        } catch (RuntimeException e) {
            all.add(failed(Kind.VARIETY, subject, e));
            appearance = Optional.empty();
        }
        return new Kept(List.copyOf(all), appearance);
    }

    /** What was measured and not only computed is said to be so. */
    private static Finding said(Finding f, MeasuredLight measured) {
        return new Finding(
                f.kind(),
                f.weight(),
                f.subject(),
                f.says() + " (" + measured.says() + ")",
                f.numbers(),
                f.mend());
    }

    private static List<Finding> safely(Kind kind, Subject subject, Supplier<List<Finding>> check) {
        try {
            return check.get();
        } catch (RuntimeException e) {
            return List.of(failed(kind, subject, e));
        }
    }

    private static Finding failed(Kind kind, Subject subject, RuntimeException e) {
        return new Finding(
                kind,
                Weight.LOOK,
                subject,
                "this check failed, and says nothing: " + e,
                Map.of(),
                Optional.of(Mend.words("look at it by eye")));
    }
}
