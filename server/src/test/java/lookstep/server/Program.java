package lookstep.server;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.TimeUnit;

/** Independent programs that the checks lean on; a missing one fails the test, with its package. */
public final class Program {
    private Program() {}

    public static byte[] run(String debianPackage, String... command) {
        try {
            Process process =
                    new ProcessBuilder(command)
                            .redirectError(ProcessBuilder.Redirect.INHERIT)
                            .start();
            byte[] out = process.getInputStream().readAllBytes();
            if (!process.waitFor(60, TimeUnit.SECONDS) || process.exitValue() != 0) {
                process.destroyForcibly();
                throw new AssertionError(
                        String.join(" ", command)
                                + " failed: "
                                + new String(out, StandardCharsets.UTF_8));
            }
            return out;
        } catch (IOException missing) {
            throw new AssertionError(
                    command[0] + " is missing: apt-get install " + debianPackage, missing);
        } catch (InterruptedException stopped) {
            Thread.currentThread().interrupt();
            throw new AssertionError(stopped);
        }
    }
}
