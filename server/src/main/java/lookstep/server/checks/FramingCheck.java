package lookstep.server.checks;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lookstep.server.plan.Light;
import lookstep.server.plan.PlanWords;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.simulator.model.scene.Figure;
import lookstep.simulator.model.space.Vec3;

/**
 * Whether everybody is inside the format with some leeway, nobody stands in the fold of a spread,
 * words have room, and no lamp stands in the picture.
 */
final class FramingCheck {
    /** 10 mm to the edge of the paper and 3 mm that are cut off, of a page of 210 x 297 mm. */
    private static final double PAGE_MARGIN_MILLIMETRES = 13;

    private static final double CUT_MILLIMETRES = 2 * 3;

    /** Elsewhere: a little, so that a crooked picture can be turned (figure of our own). */
    static final double MARGIN = 0.03;

    /** Each side of the fold, of a spread 420 mm wide: 12.5 mm are lost (common practice). */
    static final double FOLD = 12.5 / 420;

    /** A title or a block of text takes a quarter of the picture (figure of our own). */
    static final double TEXT_ROOM = 0.25;

    private FramingCheck() {}

    static List<Finding> of(Staged s) {
        Frame frame = Frame.of(s);
        Extent people = Extent.of(s, frame);
        List<Finding> all = new ArrayList<>();
        all.add(inside(s, frame, people));
        if (s.shot().framing().equals("spread")) {
            all.add(fold(s, frame));
        }
        if (!s.shot().use().text().isEmpty()) {
            all.add(text(s, people));
        }
        lamps(s, frame).ifPresent(all::add);
        return all;
    }

    /** Where the people end, in shares of the picture from each edge; below 0 they are cut. */
    private record Extent(double left, double right, double top, double bottom, String cut) {
        static Extent of(Staged s, Frame frame) {
            double left = 1;
            double right = 1;
            double top = 1;
            double bottom = 1;
            List<String> cut = new ArrayList<>();
            for (int i = 0; i < s.scene().figures().size(); i++) {
                Figure f = s.scene().figures().get(i);
                Vec3 side = new Vec3(Stature.halfWidth(f), 0, 0);
                Vec3 chest = f.feet().plus(new Vec3(0, 0, 0.6 * f.heightMetres()));
                double l = (1 + frame.x(chest.minus(side))) / 2;
                double r = (1 - frame.x(chest.plus(side))) / 2;
                double t = (1 - frame.y(Stature.top(f))) / 2;
                if (l < 0 || r < 0 || t < 0) {
                    cut.add(s.name(i));
                }
                left = Math.min(left, l);
                right = Math.min(right, r);
                top = Math.min(top, t);
                bottom = Math.min(bottom, (1 + frame.y(f.feet())) / 2);
            }
            return new Extent(left, right, top, bottom, Words.names(cut));
        }

        double least() {
            return Math.min(top, Math.min(left, right));
        }

        boolean within(Margin margin) {
            return Math.min(left, right) >= margin.side() && top >= margin.above();
        }
    }

    /** What is to be left free, in shares of the picture's width and height. */
    private record Margin(double side, double above) {
        static Margin of(String framing) {
            double wide =
                    switch (framing) {
                        case "cover" -> 210;
                        case "spread" -> 2 * 210;
                        default -> 0;
                    };
            return wide == 0
                    ? new Margin(MARGIN, MARGIN)
                    : new Margin(
                            PAGE_MARGIN_MILLIMETRES / (wide + CUT_MILLIMETRES),
                            PAGE_MARGIN_MILLIMETRES / (297 + CUT_MILLIMETRES));
        }
    }

    private static Finding inside(Staged s, Frame frame, Extent people) {
        Margin margin = Margin.of(s.shot().framing());
        double across = 1 - people.left() - people.right();
        Numbers numbers =
                new Numbers()
                        .put("leftShare", people.left())
                        .put("rightShare", people.right())
                        .put("topShare", people.top())
                        .put("bottomShare", people.bottom())
                        .put("leastWantedAsideShare", margin.side())
                        .put("leastWantedAboveShare", margin.above())
                        .put("peopleShareOfWidth", across)
                        .put("cropShareOfSensor", frame.share());
        if (people.within(margin)) {
            return finding(
                    s,
                    Weight.GOOD,
                    Words.text(
                            "all inside a %s: %s of the width is people; room left %s, right %s,"
                                    + " above %s%s",
                            s.shot().framing(),
                            Words.percent(across),
                            Words.percent(people.left()),
                            Words.percent(people.right()),
                            Words.percent(people.top()),
                            people.bottom() > 0 ? ", feet in" : ""),
                    numbers,
                    Optional.empty());
        }
        boolean cut = people.least() < 0;
        double aside = Math.min(people.left(), people.right());
        boolean above = people.top() - margin.above() < aside - margin.side();
        String says =
                cut
                        ? Words.text(
                                "a %s cuts %s: %s too far out",
                                s.shot().framing(), people.cut(), Words.percent(-people.least()))
                        : Words.text(
                                "people come within %s of the %s of a %s; %s is wanted",
                                Words.percent(above ? people.top() : aside),
                                above ? "upper edge" : "side",
                                s.shot().framing(),
                                Words.percent(above ? margin.above() : margin.side()));
        return finding(
                s, cut ? Weight.WRONG : Weight.LOOK, says, numbers, farther(s, margin, numbers));
    }

    /** The least distance from which all are inside. */
    private static Optional<Mend> farther(Staged s, Margin margin, Numbers numbers) {
        return farther(s, e -> e.within(margin), numbers, "leaves all inside");
    }

    private interface Wish {
        boolean holds(Extent people);
    }

    private static Optional<Mend> farther(Staged s, Wish wish, Numbers numbers, String does) {
        double room = s.plan().place().depthMetres() - s.plan().place().backgroundMetres();
        for (double k = 1.02; k < 4; k += 0.02) {
            double metres = Math.ceil(s.shot().distanceMetres() * k * 10) / 10;
            Staged there = Staged.of(s.plan(), at(s.shot(), metres));
            if (!wish.holds(Extent.of(there, Frame.of(there)))) {
                continue;
            }
            numbers.put("distanceMendMetres", metres);
            if (metres > room) {
                double lens = Math.floor(s.shot().lensMillimetres() / k);
                return Optional.of(
                        new Mend(
                                Words.text(
                                        "%.1f m away %s, but the room is %.1f m deep there: a lens"
                                                + " of %.0f mm",
                                        metres, does, room, lens),
                                List.of(new Change(Paths.shot(s.shot().id(), "lens"), lens))));
            }
            return Optional.of(
                    new Mend(
                            Words.text(
                                    "%.1f m away instead of %s m %s",
                                    metres, PlanWords.number(s.shot().distanceMetres()), does),
                            List.of(new Change(Paths.shot(s.shot().id(), "distance"), metres))));
        }
        return Optional.of(Mend.words("a wider lens, or fewer people"));
    }

    private static Shot at(Shot s, double metres) {
        return new Shot(
                s.id(),
                s.name(),
                s.safe(),
                s.look(),
                s.people(),
                s.arrangement(),
                s.lensMillimetres(),
                metres,
                s.cameraHeightMetres(),
                s.framing(),
                s.say(),
                s.importance(),
                s.use());
    }

    private static Finding fold(Staged s, Frame frame) {
        List<String> in = new ArrayList<>();
        Numbers numbers = new Numbers().put("foldShareEachSide", FOLD);
        double least = 1;
        double step = 0;
        for (int i = 0; i < s.scene().figures().size(); i++) {
            Figure f = s.scene().figures().get(i);
            double half = Stature.halfHead(f);
            double a = frame.x(f.face().minus(new Vec3(half, 0, 0))) / 2;
            double b = frame.x(f.face().plus(new Vec3(half, 0, 0))) / 2;
            double clear = Math.max(a, -b);
            least = Math.min(least, clear);
            if (clear < FOLD) {
                in.add(s.name(i));
                double metresPerShare = 2 * half / (b - a);
                step = Math.max(step, (FOLD - clear) * metresPerShare);
            }
        }
        numbers.put("nearestFaceToFoldShare", least);
        if (in.isEmpty()) {
            return finding(
                    s,
                    Weight.GOOD,
                    Words.text(
                            "nobody's face is in the fold: the nearest is %s of the width from it",
                            Words.percent(least)),
                    numbers,
                    Optional.empty());
        }
        boolean odd = s.shot().people().size() % 2 == 1;
        numbers.put("stepAsideMetres", step);
        return finding(
                s,
                Weight.WRONG,
                Words.names(in)
                        + (in.size() == 1 ? " stands" : " stand")
                        + " in the fold of the spread"
                        + (odd && in.size() == 1 ? ": the middle of an odd number does" : ""),
                numbers,
                Optional.of(
                        Mend.words(
                                Words.text(
                                        "a step of %.2f m aside, or aim that much past them; or an"
                                                + " even number with a gap in the middle",
                                        step))));
    }

    private static Finding text(Staged s, Extent people) {
        String side = s.shot().use().text();
        double free = free(people, side);
        Numbers numbers = new Numbers().put("freeShare", free).put("wantedShare", TEXT_ROOM);
        if (free >= TEXT_ROOM) {
            return finding(
                    s,
                    Weight.GOOD,
                    Words.text(
                            "words have %s of the picture free at the %s",
                            Words.percent(Math.max(0, free)), side),
                    numbers,
                    Optional.empty());
        }
        Optional<Mend> mend =
                side.equals("bottom")
                        ? Optional.of(Mend.words("aim lower: the people go up in the picture"))
                        : farther(
                                s,
                                e -> free(e, side) >= TEXT_ROOM,
                                numbers,
                                "leaves a quarter free");
        return finding(
                s,
                Weight.LOOK,
                Words.text(
                        "words want a quarter of the picture at the %s, and %s is free of people",
                        side, Words.percent(Math.max(0, free))),
                numbers,
                mend);
    }

    private static double free(Extent people, String side) {
        return switch (side) {
            case "top" -> people.top();
            case "bottom" -> people.bottom();
            case "left" -> people.left();
            default -> people.right();
        };
    }

    /** A lamp in the picture is seen, and its light falls into the lens. */
    private static Optional<Finding> lamps(Staged s, Frame frame) {
        List<String> in = new ArrayList<>();
        for (Light light : s.plan().rig()) {
            boolean before =
                    light.position().y() < s.scene().room().backgroundMetres()
                            && light.position().y() > s.camera().position().y();
            if (before && frame.holds(light.position())) {
                in.add(light.name());
            }
        }
        if (in.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(
                finding(
                        s,
                        Weight.LOOK,
                        Words.quoted(in)
                                + (in.size() == 1 ? " stands" : " stand")
                                + " in the picture",
                        new Numbers().put("lamps", String.join(", ", in)),
                        Optional.of(
                                Mend.words(
                                        "move it out, hide it behind somebody, or let it be seen on"
                                                + " purpose and look for flare"))));
    }

    private static Finding finding(
            Staged s, Weight weight, String says, Numbers numbers, Optional<Mend> mend) {
        return new Finding(Kind.FRAMING, weight, Subject.shot(s), says, numbers.all(), mend);
    }

    /** For tests: shares free at left, right, top, bottom. */
    static List<Double> room(ShootPlan plan, Shot shot) {
        Staged s = Staged.of(plan, shot);
        Extent e = Extent.of(s, Frame.of(s));
        return List.of(e.left(), e.right(), e.top(), e.bottom());
    }
}
