package lookstep.server.checks;

import java.util.ArrayList;
import java.util.List;
import lookstep.simulator.model.scene.Figure;
import lookstep.simulator.model.space.Vec3;

/**
 * Illuminance on one face, upright and turned to the camera's side of the room, shadows of others
 * left out.
 *
 * @param backMetres how far behind the foremost it stands
 * @param direct straight from each light, lux, in the rig's order
 * @param roomLux what the room gives back of all of them
 * @param houseLux the light that is there already
 */
record FaceLight(double backMetres, List<Double> direct, double roomLux, double houseLux) {
    private static final Vec3 TO_THE_CAMERA = new Vec3(0, -1, 0);

    FaceLight {
        direct = List.copyOf(direct);
    }

    static FaceLight of(Staged s, Figure figure) {
        List<Double> direct = new ArrayList<>();
        double room = 0;
        for (int i = 0; i < s.lamps().size(); i++) {
            double candela = s.sent().get(i).y() * s.factors(i).people();
            direct.add(candela * s.lamps().get(i).direct(figure.face(), TO_THE_CAMERA));
            room += candela * s.lamps().get(i).indirect();
        }
        return new FaceLight(
                figure.feet().y(),
                direct,
                room,
                s.scene().houseLux() * s.measured().house().people());
    }

    double lux() {
        return direct.stream().mapToDouble(Double::doubleValue).sum() + roomLux + houseLux;
    }
}
