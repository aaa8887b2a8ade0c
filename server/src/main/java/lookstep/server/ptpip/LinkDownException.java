package lookstep.server.ptpip;

import java.io.IOException;

/** The camera cannot be spoken to any more; the message says why and what to do. */
final class LinkDownException extends IOException {
    private static final long serialVersionUID = 1L;

    LinkDownException(String why) {
        super(why);
    }

    LinkDownException(String why, Throwable cause) {
        super(why, cause);
    }
}
