package lookstep.server.web;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import lookstep.server.lighting.Lighting;
import lookstep.server.live.LiveState;
import lookstep.server.plan.Look;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.prediction.Formats;
import lookstep.server.prediction.Sight;
import lookstep.server.prediction.Staging;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.optics.DepthOfField;
import lookstep.simulator.model.optics.Scales;
import lookstep.simulator.model.scene.Arrangement;
import lookstep.simulator.model.scene.Figure;
import lookstep.simulator.model.space.Vec3;

/**
 * How people stand in a shot, to be drawn from above and as the camera sees them.
 *
 * @param above metres: x to the right as the camera sees it, y away from it
 * @param cameraY where the camera stands, straight before the middle
 * @param apex near or far for a V, otherwise none
 * @param fromCamera in shares of the picture, the farthest first; the camera is held as {@link
 *     Formats} has it
 * @param crop the wanted format within the picture
 * @param fold where a spread is folded, share of the width; null if it is none
 * @param text the side on which words are to have room; empty if none are
 * @param focusY how far behind the nearest row the focus lies
 * @param sharp from where to where it is sharp, metres like {@code y}
 */
public record DirectionPart(
        List<Stand> above,
        double cameraY,
        String apex,
        List<Outline> fromCamera,
        Formats.Crop crop,
        Double fold,
        String text,
        double focusY,
        Sharp sharp) {
    /** One person from above. */
    public record Stand(String name, double x, double y) {}

    /** One person as the camera sees them; parts of it may lie outside the picture. */
    public record Outline(
            String name, double left, double right, double top, double bottom, Face face) {}

    /** The middle of a face, and half its width. */
    public record Face(double x, double y, double r) {}

    /** Depth of field; far is null where there is no end to it. */
    public record Sharp(double nearY, Double farY) {}

    private static final double SHOULDERS_METRES = 0.46;
    private static final double FACE_METRES = 0.18;

    /** Those of the current shot and of the next. */
    static Map<String, DirectionPart> of(LiveState state, Lighting lighting, List<Shot> order) {
        Map<String, DirectionPart> all = new LinkedHashMap<>();
        int at = state.position();
        for (int i = Math.max(0, at - 1); i <= at && i < order.size(); i++) {
            Shot shot = order.get(i);
            all.put(shot.id(), of(lighting.plan(), shot, lighting.look(state, shot)));
        }
        return all;
    }

    static DirectionPart of(ShootPlan plan, Shot shot, Look look) {
        Camera camera = Staging.camera(plan, shot, look);
        List<Figure> figures = Staging.scene(plan, shot, look).figures();
        Sight sight =
                new Sight(camera, Formats.pictureAspect(shot.framing(), plan.around().sensor()), 1);
        List<Outline> seen = new ArrayList<>();
        IntStream.range(0, figures.size())
                .boxed()
                .sorted(Comparator.comparingDouble((Integer i) -> -figures.get(i).feet().y()))
                .forEach(i -> seen.add(outline(shot.people().get(i), figures.get(i), sight)));
        double f = Scales.exactFNumber(look.camera().fNumber());
        DepthOfField sharp =
                DepthOfField.of(
                        shot.lensMillimetres(),
                        f,
                        shot.distanceMetres(),
                        Staging.circleMillimetres(plan));
        Formats.Crop crop = Formats.crop(shot.framing(), plan.around().sensor());
        return new DirectionPart(
                IntStream.range(0, figures.size())
                        .mapToObj(
                                i ->
                                        new Stand(
                                                shot.people().get(i),
                                                hundredths(figures.get(i).feet().x()),
                                                hundredths(figures.get(i).feet().y())))
                        .toList(),
                -shot.distanceMetres(),
                apex(shot.arrangement()),
                seen,
                crop,
                shot.framing().equals("spread") ? Double.valueOf(0.5) : null,
                shot.use().text(),
                0,
                new Sharp(
                        hundredths(sharp.nearMetres() - shot.distanceMetres()),
                        Double.isInfinite(sharp.farMetres())
                                ? null
                                : Double.valueOf(
                                        hundredths(sharp.farMetres() - shot.distanceMetres()))));
    }

    private static String apex(Arrangement arrangement) {
        if (arrangement.kind() != Arrangement.Kind.WEDGE) {
            return "none";
        }
        return arrangement.apexNear() ? "near" : "far";
    }

    private static Outline outline(String name, Figure figure, Sight sight) {
        Vec3 feet = figure.feet();
        Sight.At head = sight.at(new Vec3(feet.x(), feet.y(), feet.z() + figure.heightMetres()));
        Sight.At ground = sight.at(feet);
        Sight.At face = sight.at(figure.face());
        double half = SHOULDERS_METRES / 2 * face.perMetreAcross();
        return new Outline(
                name,
                thousandths(face.x() - half),
                thousandths(face.x() + half),
                thousandths(head.y()),
                thousandths(ground.y()),
                new Face(
                        thousandths(face.x()),
                        thousandths(face.y()),
                        thousandths(FACE_METRES / 2 * face.perMetreAcross())));
    }

    private static double hundredths(double value) {
        return Math.round(value * 100) / 100.0;
    }

    private static double thousandths(double value) {
        return Math.round(value * 1000) / 1000.0;
    }
}
