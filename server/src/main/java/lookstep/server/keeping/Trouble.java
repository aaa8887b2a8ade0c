package lookstep.server.keeping;

import java.io.IOException;

/** Why a copy did not come about; the message says what to do. */
final class Trouble extends IOException {
    private static final long serialVersionUID = 1;

    /** Where it lies. */
    enum Side {
        /** With this original: others may do better. */
        ORIGINAL,
        /** With the second place: no other copy would do better now. */
        PLACE
    }

    private final Side side;

    Trouble(Side side, String words, IOException cause) {
        super(words, cause);
        this.side = side;
    }

    Side side() {
        return side;
    }
}
