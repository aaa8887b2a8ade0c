package lookstep.server.plan;

import java.util.List;

/**
 * What is known of the band.
 *
 * @param notes what they look like, what they wear, what they do not want
 * @param pictures files to look at, as the plan names them
 */
public record BandNotes(List<String> notes, List<String> pictures) {
    /** Nothing known. */
    public static final BandNotes NONE = new BandNotes(List.of(), List.of());

    public BandNotes {
        notes = List.copyOf(notes);
        pictures = List.copyOf(pictures);
    }
}
