package lookstep.simulator.model.plates;

import java.util.ArrayList;
import java.util.List;
import lookstep.simulator.gear.BandOnSet;
import lookstep.simulator.gear.ToneCurve;
import lookstep.simulator.model.optics.Camera;

/** Takes what a photographer would take of {@link BandOnSet}: a ramp of its key, and plates. */
final class TakenPlates {
    /** The house, each emitter alone, and the colours of the coloured rim each with white. */
    private static final double[][] LEVELS = {
        {},
        {0, 1},
        {1, 1},
        {2, 1},
        {3, 1},
        {4, 1},
        {8, 1},
        {8, 0.5, 5, 1},
        {8, 0.5, 6, 0.6},
        {8, 0.5, 7, 1}
    };

    private static final double[] SHARES = {0, 1 / 16.0, 1 / 8.0, 1 / 4.0, 1 / 2.0, 1};

    private TakenPlates() {}

    static List<ResponseRecovery.Step> ramp(BandOnSet set, ToneCurve style) {
        List<ResponseRecovery.Step> ramp = new ArrayList<>();
        for (int k = 0; k < SHARES.length; k++) {
            double[] levels = BandOnSet.levels(0, SHARES[k], 1, SHARES[k]);
            CodedPicture frame =
                    CodedPicture.of(set.frame(1, levels, BandOnSet.camera(), style, k + 1));
            ramp.add(new ResponseRecovery.Step(frame, SHARES[k], BandOnSet.scale()));
        }
        return ramp;
    }

    static PlateStack stack(BandOnSet set, Response response, ToneCurve style) {
        return stack(set, response, style, BandOnSet.camera());
    }

    static PlateStack stack(BandOnSet set, Response response, ToneCurve style, Camera camera) {
        List<PlateStack.Taken> taken = new ArrayList<>();
        for (int k = 0; k < LEVELS.length; k++) {
            double[] levels = BandOnSet.levels(LEVELS[k]);
            CodedPicture frame = CodedPicture.of(set.frame(1, levels, camera, style, 50 + k));
            taken.add(new PlateStack.Taken(frame, levels, BandOnSet.scale()));
        }
        return PlateStack.of(response, BandOnSet.KELVIN, taken);
    }

    /** True where no person is. */
    static boolean[] background(Cast cast) {
        boolean[] background = new boolean[cast.figure().length];
        for (int p = 0; p < background.length; p++) {
            background[p] = cast.figure()[p] < 0;
        }
        return background;
    }
}
