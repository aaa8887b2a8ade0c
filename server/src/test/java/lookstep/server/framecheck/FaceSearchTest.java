package lookstep.server.framecheck;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import lookstep.simulator.model.picture.Part;
import lookstep.simulator.model.picture.Plates;
import lookstep.simulator.model.space.Vec3;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Against what the renderer knows of each pixel: whose skin it shows. */
class FaceSearchTest {
    private static final double[][] ELSEWHERE = {
        {-0.06, 0.05}, {0.02, -0.04}, {0.04, 0.1}, {-0.05, 0.05}, {0.06, -0.05}
    };

    /** Share of a box that shows the skin or the features of a figure. */
    private static double shows(Plates plates, Box box, int figure) {
        int n = 0;
        int in = 0;
        for (int y = 0; y < plates.height(); y++) {
            for (int x = 0; x < plates.width(); x++) {
                if (box.holds((x + 0.5) / plates.width(), (y + 0.5) / plates.height())) {
                    Part part = plates.partAt(x, y);
                    n++;
                    in +=
                            plates.ownerAt(x, y) == figure
                                            && (part == Part.SKIN || part == Part.FEATURE)
                                    ? 1
                                    : 0;
                }
            }
        }
        return n == 0 ? 0 : (double) in / n;
    }

    private static List<Face> faces(DemoFrames.DemoFrame frame) {
        return Seen.of(
                        DemoFrames.PLAN,
                        frame.taken(),
                        DemoFrames.PREDICTED.picture(frame.shot(), frame.look()))
                .faces();
    }

    /** The projection alone, without a search. */
    @ParameterizedTest
    @ValueSource(strings = {"safe", "tight-five", "solo-ines"})
    void thePlanHasTheFacesWhereTheRendererShowsThem(String shot) {
        DemoFrames.DemoFrame frame = DemoFrames.of(shot);
        List<FacePlace> places =
                FacePlace.of(
                        DemoFrames.PLAN,
                        frame.shot(),
                        frame.look(),
                        DemoFrames.WIDTH,
                        DemoFrames.HEIGHT);
        assertEquals(frame.shot().people().size(), places.size());
        for (int i = 0; i < places.size(); i++) {
            assertEquals(frame.shot().people().get(i), places.get(i).name());
            double share = shows(frame.plates(), places.get(i).face(), i);
            assertTrue(share > 0.6, places.get(i).name() + ": " + share);
        }
    }

    @Test
    void peopleElsewhereAndTheCameraAimedAside() {
        DemoFrames.DemoFrame frame =
                DemoFrames.of("safe")
                        .aimed(0.15, -0.1)
                        .standing(
                                (i, feet) ->
                                        feet.plus(new Vec3(ELSEWHERE[i][0], ELSEWHERE[i][1], 0)));
        List<Face> found = faces(frame);
        for (int i = 0; i < 5; i++) {
            Face face = found.get(i);
            assertTrue(face.found(), face.name());
            double share = shows(frame.plates(), face.skin(), i);
            assertTrue(share > 0.6, face.name() + ": " + share);
            double planned = shows(frame.plates(), face.place().face(), i);
            assertTrue(planned < 0.5, "and not where it was planned: " + planned);
        }
    }

    @Test
    void nobodyThereIsNotAFace() {
        DemoFrames.DemoFrame frame =
                DemoFrames.of("safe")
                        .standing((i, feet) -> i == 1 ? feet.plus(new Vec3(-9, 0, 0)) : feet);
        List<Face> found = faces(frame);
        assertEquals(
                List.of(true, false, true, true, true), found.stream().map(Face::found).toList());
        Remark remark = DemoFrames.remark(DemoFrames.check(frame.taken()), Kind.EXPOSURE);
        assertTrue(remark.says().contains("(Marlo not found)"), remark.says());
    }
}
