package lookstep.server.plates;

import java.util.ArrayList;
import java.util.List;
import lookstep.server.plates.PlateBook.Standing;
import lookstep.server.plates.PlateTaker.Taking;

/**
 * How the plates are, for the pages.
 *
 * @param taking how a run is going
 * @param standing what there is
 * @param trouble why nothing came of the frames, in words; empty if something did
 * @param doubts what is uncertain about them, in words
 */
public record PlatesNow(Taking taking, Standing standing, String trouble, List<String> doubts) {
    /** Before any were taken. */
    public static final PlatesNow NONE =
            new PlatesNow(Taking.NOTHING, Standing.NONE, "", List.of());

    public PlatesNow {
        doubts = List.copyOf(doubts);
    }

    /** With more that is uncertain. */
    public PlatesNow doubting(List<String> more) {
        List<String> all = new ArrayList<>(doubts);
        all.addAll(more);
        return new PlatesNow(taking, standing, trouble, all);
    }

    /** As they are. */
    public static PlatesNow of(PlateTaker taker, PlateBook book) {
        return new PlatesNow(
                taker.taking(),
                book.standing(),
                book.trouble(),
                book.current().map(MeasuredSet::doubts).orElse(List.of()));
    }
}
