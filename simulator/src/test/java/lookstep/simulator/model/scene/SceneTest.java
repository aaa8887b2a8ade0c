package lookstep.simulator.model.scene;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import lookstep.simulator.model.scene.Arrangement.Kind;
import lookstep.simulator.model.space.Vec3;
import org.junit.jupiter.api.Test;

class SceneTest {
    private static List<Vec3> stand(Kind kind, boolean apexNear, int people, Integer... rows) {
        return Positions.of(new Arrangement(kind, apexNear, 0.55, 0.60, List.of(rows)), people);
    }

    private static void assertPlaces(double[][] expected, List<Vec3> places) {
        assertEquals(expected.length, places.size());
        for (int i = 0; i < expected.length; i++) {
            assertEquals(expected[i][0], places.get(i).x(), 6e-4, "x of " + i);
            assertEquals(expected[i][1], places.get(i).y(), 6e-4, "y of " + i);
            assertEquals(0, places.get(i).z(), 0);
        }
    }

    // Places computed apart: spacing 0.55 m, rows 0.60 m, wings at 30 degrees (common practice).
    @Test
    void line() {
        assertPlaces(new double[][] {{-0.55, 0}, {0, 0}, {0.55, 0}}, stand(Kind.LINE, false, 3));
    }

    @Test
    void wedgeOfSixWithTheMiddleNear() {
        assertPlaces(
                new double[][] {
                    {-1.228, 0.55},
                    {-0.751, 0.275},
                    {-0.275, 0},
                    {0.275, 0},
                    {0.751, 0.275},
                    {1.228, 0.55}
                },
                stand(Kind.WEDGE, true, 6));
    }

    @Test
    void wedgeTheOtherWayIsItsMirrorInDepth() {
        List<Vec3> near = stand(Kind.WEDGE, true, 5);
        List<Vec3> far = stand(Kind.WEDGE, false, 5);
        assertEquals(0, near.get(2).y(), 1e-12);
        assertEquals(0.55, far.get(2).y(), 1e-12);
        for (int i = 0; i < 5; i++) {
            assertEquals(near.get(i).x(), far.get(i).x(), 1e-12);
            assertEquals(0.55, near.get(i).y() + far.get(i).y(), 1e-12);
        }
    }

    @Test
    void zigzag() {
        assertPlaces(
                new double[][] {
                    {-0.953, 0.275}, {-0.476, 0}, {0, 0.275}, {0.476, 0}, {0.953, 0.275}
                },
                stand(Kind.ZIGZAG, false, 5));
        assertPlaces(
                new double[][] {
                    {-1.191, 0.275},
                    {-0.714, 0},
                    {-0.238, 0.275},
                    {0.238, 0.275},
                    {0.714, 0},
                    {1.191, 0.275}
                },
                stand(Kind.ZIGZAG, false, 6));
        assertPlaces(
                new double[][] {
                    {-1.905, 0.55},
                    {-1.429, 0.275},
                    {-0.953, 0},
                    {-0.476, 0.275},
                    {0, 0.55},
                    {0.476, 0.275},
                    {0.953, 0},
                    {1.429, 0.275},
                    {1.905, 0.55}
                },
                stand(Kind.ZIGZAG, false, 9));
    }

    @Test
    void rows() {
        assertPlaces(
                new double[][] {{0, 0}, {-0.275, 0.6}, {0.275, 0.6}},
                stand(Kind.ROWS, false, 3, 1, 2));
        assertPlaces(
                new double[][] {
                    {-0.688, 0}, {-0.138, 0}, {0.413, 0}, {-0.413, 0.6}, {0.138, 0.6}, {0.688, 0.6}
                },
                stand(Kind.ROWS, false, 6, 3, 3));
        assertThrows(IllegalArgumentException.class, () -> stand(Kind.ROWS, false, 5, 2, 2));
    }

    @Test
    void soloIsForOne() {
        assertPlaces(new double[][] {{0, 0}}, stand(Kind.SOLO, false, 1));
        assertThrows(IllegalArgumentException.class, () -> stand(Kind.SOLO, false, 2));
    }

    @Test
    void everyArrangementStartsAtZeroAndKeepsPeopleApart() {
        for (Kind kind : List.of(Kind.LINE, Kind.WEDGE, Kind.ZIGZAG, Kind.CLUSTER)) {
            for (int n = 1; n <= 9; n++) {
                List<Vec3> places = stand(kind, true, n);
                assertEquals(n, places.size());
                assertEquals(0, places.stream().mapToDouble(Vec3::y).min().orElseThrow(), 1e-12);
                assertEquals(0, places.stream().mapToDouble(Vec3::x).sum(), 1e-9);
                for (int i = 1; i < n; i++) {
                    double apart = places.get(i).minus(places.get(i - 1)).length();
                    assertTrue(apart > 0.40, kind + " of " + n + ": " + apart + " m");
                }
            }
        }
    }

    @Test
    void roomIsABox() {
        // 4 x 5 x 3: walls 54, floor and ceiling 40; mean weighted by area.
        Room room =
                new Room(
                        4,
                        5,
                        3,
                        2,
                        Reflectance.grey(0.5),
                        Reflectance.grey(0.1),
                        Reflectance.grey(0.2));
        assertEquals(94, room.areaSquareMetres(), 1e-9);
        assertEquals((12 * 0.5 + 20 * 0.1 + 62 * 0.2) / 94, room.meanReflectance(), 1e-9);
    }

    @Test
    void impossibleSurfacesAndPeopleAreRefused() {
        assertThrows(IllegalArgumentException.class, () -> new Reflectance(1.1, 0, 0));
        Reflectance g = Reflectance.grey(0.2);
        assertThrows(
                IllegalArgumentException.class,
                () -> new Figure(new Vec3(0, 0, 0), 0, 17.5, g, g, g, g, 1));
    }
}
