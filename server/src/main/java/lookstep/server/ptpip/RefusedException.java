package lookstep.server.ptpip;

import lookstep.protocols.ptpip.ResponseCode;

/** The camera did not do what it was asked; it can be asked for other things. */
final class RefusedException extends Exception {
    private static final long serialVersionUID = 1L;

    private final int response;

    RefusedException(int response) {
        super("the camera answers '" + ResponseCode.words(response) + "'");
        this.response = response;
    }

    RefusedException(String why) {
        super(why);
        this.response = ResponseCode.GENERAL_ERROR.code();
    }

    boolean is(ResponseCode code) {
        return response == code.code();
    }
}
