package lookstep.simulator.model.plates;

import java.util.List;

/** STUB. */
public final class ResponseRecovery {
    private ResponseRecovery() {}

    /**
     * @param share of the ramp's light, 0..1 of its full light; 0 is the house alone
     * @param scale exposure scale of the frame
     */
    public record Step(CodedPicture picture, double share, double scale) {}

    /** From frames in which one light alone changes, the house alone among them. */
    public static Response of(List<Step> ramp) {
        throw new UnsupportedOperationException();
    }
}
