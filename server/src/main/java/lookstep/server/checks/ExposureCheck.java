package lookstep.server.checks;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.PlanWords;
import lookstep.simulator.model.optics.Exposure;
import lookstep.simulator.model.optics.Scales;
import lookstep.simulator.model.optics.Scales.Mark;

/**
 * How much light the faces get against what the camera is set for: incident light, ISO 2720:1974
 * with C = 250, the usual constant of a flat receptor, which is what lux are.
 */
final class ExposureCheck {
    /** The step of the dials. */
    private static final double THIRD = 1 / 3.0;

    /** Zone I and darker: no face is made out (common practice). */
    static final double DARK_STOPS = -4;

    /** From here on light skin is near white, or shadows near black (figure of our own). */
    private static final double WRONG_STOPS = 1.5;

    /** Between front and back row this is seen (common practice: half a stop is the aim). */
    private static final double UNEVEN_STOPS = 1;

    private ExposureCheck() {}

    static List<Finding> of(Staged s) {
        List<FaceLight> faces = s.faces();
        double mean = faces.stream().mapToDouble(FaceLight::lux).average().orElse(0);
        Numbers numbers = numbers(s, faces, mean);
        if (mean <= 0) {
            return List.of(
                    finding(
                            s,
                            Weight.WRONG,
                            "no light at all on the faces",
                            numbers,
                            Optional.of(Mend.words("turn a light on, or aim one at them"))));
        }
        double stops = Exposure.stopsOver(mean, s.camera());
        List<Finding> all = new ArrayList<>();
        String lux = range(faces);
        if (Math.abs(stops) < THIRD) {
            all.add(
                    finding(
                            s,
                            Weight.GOOD,
                            "faces " + lux + ", exposed as metered (" + signed(stops) + ")",
                            numbers,
                            Optional.empty()));
        } else if (stops < DARK_STOPS) {
            all.add(
                    finding(
                            s,
                            Weight.GOOD,
                            "faces "
                                    + lux
                                    + ", "
                                    + Words.overUnder(stops)
                                    + ": they stay dark, and only edges show",
                            numbers,
                            Optional.empty()));
        } else {
            all.add(
                    finding(
                            s,
                            Math.abs(stops) > WRONG_STOPS ? Weight.WRONG : Weight.LOOK,
                            "faces " + lux + ", " + Words.overUnder(stops),
                            numbers,
                            Optional.of(mend(s, mean))));
        }
        uneven(s, faces, stops).ifPresent(all::add);
        return all;
    }

    private static Numbers numbers(Staged s, List<FaceLight> faces, double mean) {
        CameraSettings c = s.look().camera();
        Numbers numbers =
                new Numbers()
                        .put("meanFaceLux", mean)
                        .put("meteredForLux", 1 / Exposure.scale(s.camera()))
                        .put("stopsOver", Exposure.stopsOver(mean, s.camera()))
                        .put("incidentConstantC", Exposure.C)
                        .put(
                                "secondsAsMetered",
                                Exposure.seconds(mean, s.camera().iso(), s.camera().fNumber()))
                        .put("isoAsMetered", isoFor(s, mean))
                        .put("fNumber", c.fNumber());
        for (int i = 0; i < faces.size(); i++) {
            numbers.put("lux " + s.name(i), faces.get(i).lux());
        }
        rows(s, faces, numbers);
        return numbers;
    }

    /** Each light, the room and the house on the foremost and on the hindmost. */
    private static void rows(Staged s, List<FaceLight> faces, Numbers numbers) {
        double deep = s.depthMetres();
        List<FaceLight> front = faces.stream().filter(f -> f.backMetres() <= deep / 2).toList();
        List<FaceLight> back = faces.stream().filter(f -> f.backMetres() > deep / 2).toList();
        row(s, "front", front, numbers);
        if (!back.isEmpty()) {
            row(s, "back", back, numbers);
        }
    }

    private static void row(Staged s, String row, List<FaceLight> faces, Numbers numbers) {
        for (int l = 0; l < s.sent().size(); l++) {
            int lamp = l;
            if (s.sent().get(l).y() > 0) {
                numbers.put(
                        row + "Lux " + s.plan().rig().get(l).name(),
                        faces.stream().mapToDouble(f -> f.direct().get(lamp)).average().orElse(0));
            }
        }
        numbers.put(
                        row + "Lux from the room",
                        faces.stream().mapToDouble(FaceLight::roomLux).average().orElse(0))
                .put(row + "Lux from the house", s.scene().houseLux());
    }

    private static double isoFor(Staged s, double lux) {
        return s.camera().iso() / (lux * Exposure.scale(s.camera()));
    }

    private static Mend mend(Staged s, double mean) {
        double iso = isoFor(s, mean);
        Mark mark = Scales.nearestIso(iso);
        double seconds = Exposure.seconds(mean, s.camera().iso(), s.camera().fNumber());
        boolean onTheDial = Math.abs(Words.log2(mark.exact() / iso)) < THIRD;
        return new Mend(
                Words.text(
                        "ISO %s or %s as it is lit",
                        onTheDial ? mark.text() : Words.text("%.0f (on no dial)", iso),
                        Scales.formatTime(seconds)),
                onTheDial
                        ? List.of(new Change(Paths.camera(s.look().name(), "iso"), mark.nominal()))
                        : List.of());
    }

    private static Optional<Finding> uneven(Staged s, List<FaceLight> faces, double stops) {
        double least = faces.stream().mapToDouble(FaceLight::lux).min().orElse(0);
        double most = faces.stream().mapToDouble(FaceLight::lux).max().orElse(0);
        double spread = Words.log2(most / least);
        if (!(spread >= UNEVEN_STOPS) || stops < DARK_STOPS) {
            return Optional.empty();
        }
        int dark = 0;
        int bright = 0;
        for (int i = 0; i < faces.size(); i++) {
            dark = faces.get(i).lux() == least ? i : dark;
            bright = faces.get(i).lux() == most ? i : bright;
        }
        int main = 0;
        for (int l = 0; l < s.sent().size(); l++) {
            main =
                    faces.get(bright).direct().get(l) > faces.get(bright).direct().get(main)
                            ? l
                            : main;
        }
        String light = s.plan().rig().get(main).name();
        double now =
                s.plan()
                        .rig()
                        .get(main)
                        .position()
                        .minus(s.scene().figures().get(bright).face())
                        .length();
        double other =
                s.plan()
                        .rig()
                        .get(main)
                        .position()
                        .minus(s.scene().figures().get(dark).face())
                        .length();
        // Inverse square: (d + g) / d of half a stop is the fourth root of 2.
        double gap = Math.abs(other - now);
        double away = gap / (Math.pow(2, 0.25) - 1);
        String move =
                away > now && away < 1.7 * now
                        ? Words.text(
                                "‘%s’ at %.1f m instead of %.1f m from %s would leave half a stop"
                                        + " between them by distance, or aim it past %s",
                                light, away, now, s.name(bright), s.name(bright))
                        : Words.text(
                                "aim ‘%s’ past %s, or give %s a light too",
                                light, s.name(bright), s.name(dark));
        return Optional.of(
                finding(
                        s,
                        Weight.LOOK,
                        Words.text(
                                "%s gets %s more light than %s (%.0f lx against %.0f)",
                                s.name(bright), Words.stops(spread), s.name(dark), most, least),
                        new Numbers()
                                .put("spreadStops", spread)
                                .put("leastLux", least)
                                .put("mostLux", most)
                                .put("lightMetres", now)
                                .put("lightMetresForHalfAStop", away),
                        Optional.of(Mend.words(move))));
    }

    private static Finding finding(
            Staged s, Weight weight, String says, Numbers numbers, Optional<Mend> mend) {
        return new Finding(Kind.EXPOSURE, weight, Subject.shot(s), says, numbers.all(), mend);
    }

    private static String range(List<FaceLight> faces) {
        long least = Math.round(faces.stream().mapToDouble(FaceLight::lux).min().orElse(0));
        long most = Math.round(faces.stream().mapToDouble(FaceLight::lux).max().orElse(0));
        return (least == most ? String.valueOf(least) : least + " to " + most) + " lx";
    }

    private static String signed(double stops) {
        return PlanWords.number(Math.round(stops * 10) / 10.0)
                + (Math.abs(stops) < 1.05 ? " stop" : " stops");
    }
}
