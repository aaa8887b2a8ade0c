package lookstep.server.order;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.Set;
import lookstep.server.order.RandomShoots.ItemBuilder;
import org.junit.jupiter.api.Test;

class ChangesTest {
    private static Item item(
            String look, Set<String> people, double lens, double distance, String room) {
        return new ItemBuilder(
                        look + people + lens + distance + room,
                        5,
                        10,
                        look,
                        people,
                        "line",
                        "",
                        "landscape",
                        lens,
                        distance,
                        Map.of(),
                        room)
                .build();
    }

    private static final Item FROM = item("warm", Set.of("Ada", "Bo"), 50, 3, "hall");

    @Test
    void nothingThatDiffersTakesNoTime() {
        assertEquals(Change.NONE, Changes.between(FROM, FROM, Times.USUAL));
    }

    @Test
    void theKeyAloneIsAKeyPress() {
        Change change =
                Changes.between(
                        FROM, item("cold", Set.of("Ada", "Bo"), 50, 3, "hall"), Times.USUAL);
        assertEquals(List.of(ChangeKind.LOOK), change.kinds());
        assertEquals(2, change.seconds(), 1e-9);
    }

    /** Photographer: words 4, lens 8, camera 5. Assistant: key 2. People: one goes, two come: 7. */
    @Test
    void differentHandsWorkAtTheSameTime() {
        Item to = item("cold", Set.of("Bo", "Cy", "Di"), 85, 4, "hall");
        Change change = Changes.between(FROM, to, Times.USUAL);
        assertEquals(17 + 0.2 * (2 + 7), change.seconds(), 1e-9);
        assertEquals(change, Changes.between(to, FROM, Times.USUAL), "as long back as forth");
    }

    @Test
    void anotherRoomComesBeforeTheRest() {
        Change change =
                Changes.between(
                        FROM, item("warm", Set.of("Ada", "Bo"), 85, 3, "stairs"), Times.USUAL);
        assertEquals(List.of(ChangeKind.LENS, ChangeKind.ROOM), change.kinds());
        assertEquals(60 + 8, change.seconds(), 1e-9);
    }

    @Test
    void likenessIsWithoutDirectionAndNamesWhoIsMissing() {
        Item other = item("cold", Set.of("Ada"), 50, 3, "hall");
        Variety variety = Variety.of(List.of(FROM, other));
        // half of the people, another look
        assertEquals(175, variety.between(FROM, other));
        assertEquals(175, variety.between(other, FROM));
        assertTrue(
                assertThrows(
                                IllegalArgumentException.class,
                                () -> Variety.of(List.of(other)).between(FROM, other))
                        .getMessage()
                        .contains(FROM.id()));
        assertThrows(
                IllegalArgumentException.class,
                () -> Variety.given(List.of("a", "b"), new double[][] {{1, 0.2}, {0.3, 1}}));
    }
}
