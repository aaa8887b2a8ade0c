package lookstep.server.web;

import java.util.List;
import java.util.stream.IntStream;
import lookstep.server.plan.BandNotes;

/**
 * What is known of the band.
 *
 * @param notes a line each
 * @param pictures to look at
 */
public record AboutPart(List<String> notes, List<PicturePart> pictures) {
    /** A picture that the plan names, and where it is to be had. */
    public record PicturePart(String name, String url) {}

    static AboutPart of(BandNotes band) {
        return new AboutPart(
                band.notes(),
                IntStream.range(0, band.pictures().size())
                        .mapToObj(
                                i ->
                                        new PicturePart(
                                                band.pictures().get(i), "/references/" + (i + 1)))
                        .toList());
    }
}
