package lookstep.protocols.wire;

import java.io.IOException;

/** The line is gone or was never there; the message is fit for the pages. */
public final class LineLostException extends IOException {
    private static final long serialVersionUID = 1L;

    public LineLostException(String message) {
        super(message);
    }

    public LineLostException(String message, Throwable cause) {
        super(message, cause);
    }
}
