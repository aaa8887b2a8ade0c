package lookstep.server.web;

import lookstep.server.live.LiveState;
import lookstep.server.look.Adjustment;
import lookstep.server.pictured.LookPictures.Origin;

/** What stands in the address of a look's picture: another picture has another. */
final class PictureVersion {
    private PictureVersion() {}

    /** Another plan, another place, a changed look and other plates have pictures of their own. */
    static String of(LiveState state, Adjustment adjustment, Origin origin) {
        String of =
                String.join("/", state.planHash(), state.place(), "" + adjustment, origin.plates());
        return "%08x".formatted(of.hashCode());
    }
}
