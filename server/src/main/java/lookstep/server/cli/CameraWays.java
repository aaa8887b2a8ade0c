package lookstep.server.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/**
 * How pictures come in, as the command line says.
 *
 * @param frames the folder in which they arrive; empty for one of the shoot's own
 * @param ftp the port on which cameras upload over FTP
 * @param ftpCameras those that may, by name; empty without FTP
 * @param ftpTls whether FTP is encrypted
 * @param cameras addresses of cameras that are fetched from over PTP/IP
 * @param copies the second place of each original
 */
public record CameraWays(
        Optional<Path> frames,
        Optional<Integer> ftp,
        List<String> ftpCameras,
        Tls ftpTls,
        List<String> cameras,
        Optional<Path> copies) {
    /** Whether FTP is encrypted. */
    public enum Tls {
        OFF,
        /** For cameras that ask for it. */
        OFFERED,
        /** Cameras that do not ask for it are turned away. */
        REQUIRED
    }

    public CameraWays {
        ftpCameras = List.copyOf(ftpCameras);
        cameras = List.copyOf(cameras);
    }
}
