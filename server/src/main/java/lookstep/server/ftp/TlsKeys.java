package lookstep.server.ftp;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.concurrent.TimeUnit;
import lookstep.server.disk.WholeFile;

/**
 * The server's key and its certificate, signed by itself: it keeps a picture from being read on the
 * way, and proves to nobody who the server is. Java can make one only with its own keytool.
 */
final class TlsKeys {
    /** The file is what must be kept; a password beside it would keep nobody out. */
    static final String PASSWORD = "lookstep";

    static final String ALIAS = "lookstep";
    private static final String FILE = "ftp-tls.p12";
    private static final int KEYTOOL_SECONDS = 60;
    private static final String DAYS = "3650";

    private TlsKeys() {}

    /**
     * The keystore in a folder, made there if it is not there yet.
     *
     * @throws IOException if it cannot be made; the message says what to do
     */
    static Path in(Path folder) throws IOException {
        Path keytool = Path.of(System.getProperty("java.home"), "bin", keytoolName());
        return in(folder, keytool);
    }

    static Path in(Path folder, Path keytool) throws IOException {
        Path keys = folder.resolve(FILE);
        if (Files.exists(keys)) {
            return keys;
        }
        if (!Files.isExecutable(keytool)) {
            throw new IOException(
                    keytool
                            + " is missing, and only it can make a key for TLS: run lookstep with"
                            + " a full Java 17, or take FTP without TLS");
        }
        Files.createDirectories(folder);
        Path closed = Files.createTempDirectory(folder, ".ftp-tls");
        try {
            Path fresh = closed.resolve(FILE);
            make(keytool, fresh);
            closeToOthers(fresh);
            WholeFile.rename(fresh, keys);
        } finally {
            Files.deleteIfExists(closed.resolve(FILE));
            Files.delete(closed);
        }
        return keys;
    }

    /** RSA of 2048 bits: old cameras know no other keys. */
    private static void make(Path keytool, Path keys) throws IOException {
        Process process =
                new ProcessBuilder(
                                List.of(
                                        keytool.toString(),
                                        "-genkeypair",
                                        "-alias",
                                        ALIAS,
                                        "-keyalg",
                                        "RSA",
                                        "-keysize",
                                        "2048",
                                        "-sigalg",
                                        "SHA256withRSA",
                                        "-validity",
                                        DAYS,
                                        "-dname",
                                        "CN=lookstep",
                                        "-ext",
                                        "san=dns:lookstep.local",
                                        "-storetype",
                                        "PKCS12",
                                        "-storepass",
                                        PASSWORD,
                                        "-keystore",
                                        keys.toString()))
                        .redirectErrorStream(true)
                        .start();
        process.getOutputStream().close();
        try {
            String said =
                    new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            if (!process.waitFor(KEYTOOL_SECONDS, TimeUnit.SECONDS) || process.exitValue() != 0) {
                throw new IOException(keytool + " made no key for TLS: " + said.strip());
            }
        } catch (InterruptedException stopped) {
            Thread.currentThread().interrupt();
            throw new IOException("stopped while a key for TLS was made", stopped);
        } finally {
            process.destroyForcibly();
        }
    }

    private static void closeToOthers(Path keys) throws IOException {
        try {
            Files.setPosixFilePermissions(keys, PosixFilePermissions.fromString("rw-------"));
        } catch (UnsupportedOperationException noSuchPermissions) {
            // Windows: the user's own folder is closed to others.
        }
    }

    private static String keytoolName() {
        return System.getProperty("os.name").startsWith("Windows") ? "keytool.exe" : "keytool";
    }
}
