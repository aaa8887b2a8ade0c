package lookstep.server.paper;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import lookstep.server.look.Photometry;
import lookstep.server.paper.FreeSpots.Spot;
import lookstep.server.plan.Light;
import lookstep.server.plan.Location;
import lookstep.server.plan.Place;
import lookstep.server.plan.PlanWords;
import lookstep.server.plan.Shot;
import lookstep.simulator.model.scene.Positions;
import lookstep.simulator.model.space.Vec3;

/** The room and the rig from above, to scale, the background at the top. */
final class RigPlot {
    private static final double FRAME = 4;
    private static final double BAR_ROOM = 24;
    private static final double DISC = 6.2;
    private static final double NUMBER = 6.4;
    private static final double LABEL = 8.5;
    private static final double LABEL_WIDTH = 110;
    private static final double BEAM_GREY = 0.9;

    /** Its width is drawn so far, or to its aim if that is nearer. */
    private static final double BEAM_METRES = 0.9;

    /** Its middle so far. */
    private static final double AXIS_METRES = 3;

    /** Flat ones that make an arc to the eye. */
    private static final int SLICES = 12;

    private final Location location;
    private final Optional<Shot> shot;
    private final double west;
    private final double east;
    private final double far;
    private final double near;

    private Ink ink;
    private Lettering letters;
    private FreeSpots spots;
    private double scale;
    private double originX;
    private double originY;

    RigPlot(Location location, Optional<Shot> shot) {
        this.location = location;
        this.shot = shot;
        Place p = location.place();
        double w = -p.widthMetres() / 2;
        double e = p.widthMetres() / 2;
        double f = p.backgroundMetres();
        double n = p.backgroundMetres() - p.depthMetres();
        for (Light light : location.rig()) {
            // A light through a door or a window is outside the room.
            w = Math.min(w, light.position().x() - 0.3);
            e = Math.max(e, light.position().x() + 0.3);
            f = Math.max(f, light.position().y() + 0.3);
            n = Math.min(n, light.position().y() - 0.3);
        }
        west = w;
        east = e;
        far = f;
        near = n;
    }

    double high(double width, double most) {
        return Math.min(most, (far - near) * (width - 2 * FRAME) / (east - west) + BAR_ROOM);
    }

    void draw(Pages pages, double high) {
        ink = pages.ink();
        letters = pages.letters();
        double top = pages.y();
        double wide = pages.width() - 2 * FRAME;
        scale = Math.min(wide / (east - west), (high - BAR_ROOM) / (far - near));
        originX = pages.left() + pages.width() / 2 - (east + west) / 2 * scale;
        originY = top + far * scale;
        spots = new FreeSpots(new Spot(pages.left(), top - 2, pages.width(), high));
        ink.clip(x(west), y(far), (east - west) * scale, (far - near) * scale);
        location.rig().forEach(this::beam);
        grid();
        ink.unclip();
        room();
        people();
        label("background", x(0), y(location.place().backgroundMetres()) + 11, 0);
        label("nearest row", x(-location.place().widthMetres() / 2) + 4, y(0) - 3, 1);
        location.rig().forEach(this::axis);
        lights();
        bar(top + (far - near) * scale + 10, pages.left() + pages.width());
        pages.down((far - near) * scale + BAR_ROOM + 8);
    }

    private double x(double metres) {
        return originX + metres * scale;
    }

    private double y(double metres) {
        return originY - metres * scale;
    }

    private void grid() {
        for (double m = Math.ceil(west); m <= east; m++) {
            ink.line(x(m), y(far), x(m), y(near), 0.35, 0.72);
        }
        for (double m = Math.ceil(near); m <= far; m++) {
            ink.line(x(west), y(m), x(east), y(m), 0.35, 0.72);
        }
    }

    private void room() {
        Place p = location.place();
        double left = x(-p.widthMetres() / 2);
        double right = x(p.widthMetres() / 2);
        double back = y(p.backgroundMetres());
        ink.box(left, back, right - left, p.depthMetres() * scale, 1);
        ink.line(left, back, right, back, 3.2, 0);
        ink.dashed(left, y(0), right, y(0), 0.8, 0);
    }

    private void people() {
        if (shot.isEmpty()) {
            return;
        }
        Shot first = shot.get();
        for (Vec3 place : Positions.of(first.arrangement(), first.people().size())) {
            double r = 0.23 * scale;
            ink.disc(x(place.x()), y(place.y()), r, 0.7, 1);
            spots.block(new Spot(x(place.x()) - r, y(place.y()) - r, 2 * r, 2 * r));
        }
        double lens = y(-first.distanceMetres());
        ink.triangle(x(0) - 7, lens + 14, x(0) + 7, lens + 14, x(0), lens, 0);
        spots.block(new Spot(x(0) - 7, lens, 14, 14));
        label(
                "camera, " + PlanWords.number(first.distanceMetres()) + " m (" + first.name() + ")",
                x(0) + 10,
                lens + 12,
                1);
    }

    /** How wide the beam is, as seen from above; a light that looks straight down shows none. */
    private void beam(Light light) {
        double half = Math.toRadians(Photometry.luminaire(light).beamDegrees() / 2);
        double reach = Math.min(BEAM_METRES, drawn(light)) * scale;
        if (reach == 0) {
            return;
        }
        double x = x(light.position().x());
        double y = y(light.position().y());
        double turned = towards(light);
        for (int i = 0; i < SLICES; i++) {
            double one = turned - half + 2 * half * i / SLICES;
            double other = turned - half + 2 * half * (i + 1) / SLICES;
            ink.triangle(
                    x,
                    y,
                    x + reach * Math.cos(one),
                    y - reach * Math.sin(one),
                    x + reach * Math.cos(other),
                    y - reach * Math.sin(other),
                    BEAM_GREY);
        }
        for (double edge : new double[] {turned - half, turned + half}) {
            ink.line(x, y, x + reach * Math.cos(edge), y - reach * Math.sin(edge), 0.5, 0.3);
        }
    }

    /** The middle of the beam, with a head where it aims. */
    private void axis(Light light) {
        double length = drawn(light) * scale;
        if (length < DISC + 6) {
            return;
        }
        double turned = towards(light);
        double x = x(light.position().x());
        double y = y(light.position().y());
        double tipX = x + length * Math.cos(turned);
        double tipY = y - length * Math.sin(turned);
        ink.line(x, y, tipX, tipY, 0.9, 0);
        double back = Math.PI - 0.35;
        ink.triangle(
                tipX,
                tipY,
                tipX + 7 * Math.cos(turned + back),
                tipY - 7 * Math.sin(turned + back),
                tipX + 7 * Math.cos(turned - back),
                tipY - 7 * Math.sin(turned - back),
                0);
    }

    private static double towards(Light light) {
        Vec3 d = light.aim().minus(light.position());
        return Math.atan2(d.y(), d.x());
    }

    private static double drawn(Light light) {
        Vec3 d = light.aim().minus(light.position());
        double along = Math.hypot(d.x(), d.y());
        return along < 0.05 ? 0 : Math.min(AXIS_METRES, along);
    }

    /** First all numbers, then as many names as there is room for; the table has all. */
    private void lights() {
        List<Light> rig = location.rig();
        double[] xs = new double[rig.size()];
        double[] ys = new double[rig.size()];
        for (int i = 0; i < rig.size(); i++) {
            double x = x(rig.get(i).position().x());
            double y = y(rig.get(i).position().y());
            Spot spot = beside(x, y);
            xs[i] = spot.x() + DISC;
            ys[i] = spot.y() + DISC;
            if (xs[i] != x || ys[i] != y) {
                ink.line(x, y, xs[i], ys[i], 0.6, 0);
                ink.disc(x, y, 1.6, 0.4, 0);
            }
        }
        for (int i = 0; i < rig.size(); i++) {
            String number = String.valueOf(i + 1);
            ink.disc(xs[i], ys[i], DISC, 0.5, 0);
            ink.text(
                    Face.BOLD,
                    NUMBER,
                    xs[i] - letters.width(Face.BOLD, NUMBER, number) / 2,
                    ys[i] + NUMBER * 0.36,
                    number,
                    1);
        }
        for (int i = 0; i < rig.size(); i++) {
            Light light = rig.get(i);
            String address = " " + light.universe() + "/" + light.startSlot();
            double room = LABEL_WIDTH - letters.width(Face.BOLD, LABEL, address);
            name(
                    letters.fitted(Face.BOLD, LABEL, room, light.name()) + address,
                    xs[i],
                    ys[i],
                    towards(light));
        }
    }

    /** The light's own place, or the nearest that is free. */
    private Spot beside(double x, double y) {
        for (int ring = 0; ring < 14; ring++) {
            for (int step = 0; step < (ring == 0 ? 1 : 8 * ring); step++) {
                double angle = 2 * Math.PI * step / (8.0 * Math.max(1, ring));
                double away = ring * (DISC + 1);
                Spot spot =
                        new Spot(
                                x + away * Math.cos(angle) - DISC,
                                y + away * Math.sin(angle) - DISC,
                                2 * DISC,
                                2 * DISC);
                if (spots.take(spot)) {
                    return spot;
                }
            }
        }
        return new Spot(x - DISC, y - DISC, 2 * DISC, 2 * DISC);
    }

    /** Beside the light, rather behind it than in its beam. */
    private void name(String text, double x, double y, double beam) {
        double width = letters.width(Face.BOLD, LABEL, text);
        double high = LABEL * 1.17;
        double[][] corners = {
            {x + DISC + 2, y - high / 2},
            {x - DISC - 2 - width, y - high / 2},
            {x - width / 2, y - DISC - 1 - high},
            {x - width / 2, y + DISC + 1},
            {x + DISC, y - DISC - high},
            {x + DISC, y + DISC},
            {x - DISC - width, y - DISC - high},
            {x - DISC - width, y + DISC}
        };
        Arrays.sort(
                corners,
                Comparator.comparingDouble(
                        c ->
                                Math.cos(beam) * Math.signum(c[0] + width / 2 - x)
                                        - Math.sin(beam) * Math.signum(c[1] + high / 2 - y)));
        for (double[] c : corners) {
            if (spots.take(new Spot(c[0], c[1], width, high))) {
                ink.filled(c[0] - 0.5, c[1], width + 1, high, 1);
                ink.text(Face.BOLD, LABEL, c[0], c[1] + LABEL * 0.94, text);
                return;
            }
        }
    }

    /**
     * A word on the drawing, if there is room.
     *
     * @param from 0 with its middle at x, 1 to the right of it
     */
    private void label(String text, double x, double base, int from) {
        String shown = letters.fitted(Face.PLAIN, LABEL, 200, text);
        double width = letters.width(Face.PLAIN, LABEL, shown);
        double left = from == 0 ? x - width / 2 : x;
        if (spots.take(new Spot(left, base - LABEL * 0.94, width, LABEL * 1.17))) {
            ink.filled(left - 0.5, base - LABEL * 0.94, width + 1, LABEL * 1.17, 1);
            ink.text(Face.PLAIN, LABEL, left, base, shown);
        }
    }

    private void bar(double y, double right) {
        double left = x(west);
        double metres = Math.min(5, Math.floor(east - west));
        for (int i = 0; i < metres; i++) {
            ink.filled(left + i * scale, y, scale, 4, i % 2 == 0 ? 0 : 1);
        }
        ink.box(left, y, metres * scale, 4, 0.6);
        double text = left + metres * scale + 6;
        ink.text(
                Face.PLAIN,
                LABEL,
                text,
                y + 5.5,
                letters.fitted(
                        Face.PLAIN,
                        LABEL,
                        right - text,
                        PlanWords.number(metres) + " m, grid 1 m. Beside lights: name, address."));
    }
}
