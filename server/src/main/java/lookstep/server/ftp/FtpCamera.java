package lookstep.server.ftp;

import java.util.regex.Pattern;

/**
 * A camera that may send pictures.
 *
 * @param name its user name and its folder: 1 to 32 letters of ASCII, digits and hyphens, no hyphen
 *     first
 * @param password not empty
 */
public record FtpCamera(String name, String password) {
    private static final Pattern NAME = Pattern.compile("[A-Za-z0-9][A-Za-z0-9-]{0,31}");

    public FtpCamera {
        if (!NAME.matcher(name).matches()) {
            throw new IllegalArgumentException(
                    "a camera's name has 1 to 32 letters, digits and hyphens, such as ines-body");
        }
        if (password.isEmpty()) {
            throw new IllegalArgumentException("camera " + name + " needs a password");
        }
    }

    /** Without the password: this may come into a log. */
    @Override
    public String toString() {
        return "camera " + name;
    }
}
