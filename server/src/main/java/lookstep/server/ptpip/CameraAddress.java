package lookstep.server.ptpip;

import lookstep.protocols.ptpip.Packet;

/**
 * Where a camera is reached.
 *
 * @param host name or address, IPv6 without brackets
 * @param port 1 to 65535
 */
record CameraAddress(String host, int port) {
    /**
     * Reads {@code HOST}, {@code HOST:PORT} or, for an IPv6 address, {@code [ADDRESS]:PORT}.
     *
     * @throws IllegalArgumentException if it is none of these; the message says what to write
     */
    static CameraAddress parse(String text) {
        String whole = text.strip();
        String host = whole;
        int port = Packet.PORT;
        int colon = whole.lastIndexOf(':');
        boolean bracketed = whole.startsWith("[");
        if (bracketed) {
            int end = whole.indexOf(']');
            if (end < 0 || (end + 1 < whole.length() && whole.charAt(end + 1) != ':')) {
                throw bad(text, "an IPv6 address is written as in [fe80::1]:15740");
            }
            host = whole.substring(1, end);
            colon = end + 1 < whole.length() ? end + 1 : -1;
        } else if (colon != whole.indexOf(':')) {
            // more than one: an IPv6 address alone
            colon = -1;
        } else if (colon >= 0) {
            host = whole.substring(0, colon);
        }
        if (colon >= 0) {
            port = port(text, whole.substring(colon + 1));
        }
        if (host.isEmpty()) {
            throw bad(text, "the camera's address is missing, as in 192.168.1.20");
        }
        if (host.chars().anyMatch(c -> c <= ' ' || c == '/' || c == '@' || c == 0x7F)) {
            throw bad(text, "an address is letters, digits, dots and dashes, as in 192.168.1.20");
        }
        return new CameraAddress(host, port);
    }

    private static int port(String text, String digits) {
        if (!digits.matches("[0-9]{1,5}")) {
            throw bad(text, "the port after the colon is a number, as in 192.168.1.20:15740");
        }
        int port = Integer.parseInt(digits);
        if (port < 1 || port > 65_535) {
            throw bad(text, "a port is 1 to 65535; cameras have 15740");
        }
        return port;
    }

    private static IllegalArgumentException bad(String text, String mend) {
        return new IllegalArgumentException("no camera address: '" + text + "': " + mend);
    }

    /** For people, and for the name of a folder. */
    String words() {
        return port == Packet.PORT ? host : host + " port " + port;
    }
}
