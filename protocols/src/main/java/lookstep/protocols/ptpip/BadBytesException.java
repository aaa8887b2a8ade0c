package lookstep.protocols.ptpip;

/** Bytes that are no packet or no dataset; the message says in plain words what is wrong. */
public final class BadBytesException extends Exception {
    private static final long serialVersionUID = 1L;

    BadBytesException(String what) {
        // no stack trace: what is wrong is in the bytes, not in the code
        super(what, null, false, false);
    }
}
