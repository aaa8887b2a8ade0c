package lookstep.server.plan.edit;

import lookstep.server.plan.edit.Piece.Bunch;
import lookstep.server.plan.edit.Piece.Member;

/**
 * A value of a document with what is around it.
 *
 * @param piece the value
 * @param in the group or list that it is in; null for the whole file
 * @param index its place there
 * @param holder where {@code in} itself stands; null if that is the whole file
 */
record Spot(Piece piece, Bunch in, int index, Member holder) {
    /** The value at a path of keys and indices that is there. */
    static Spot of(PlanDocument document, PlanPath path) {
        Spot spot = new Spot(document.root(), null, -1, null);
        for (Step step : path.steps()) {
            Bunch bunch = (Bunch) spot.piece();
            int index =
                    step instanceof Step.Key key
                            ? bunch.indexOf(key.name())
                            : ((Step.Index) step).at();
            spot = new Spot(bunch.members().get(index).value(), bunch, index, spot.member());
        }
        return spot;
    }

    /** The key or dash of the value; null for the whole file. */
    Member member() {
        return in == null ? null : in.members().get(index);
    }
}
