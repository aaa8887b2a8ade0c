package lookstep.server.hardware;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.ProcessBuilder.Redirect;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;

/** Programs of the machine that the guest needs; a missing one fails the test, never skips it. */
final class Tool {
    private Tool() {}

    /** Starts a program; the caller ends it. */
    static Process start(ProcessBuilder builder) {
        try {
            return builder.start();
        } catch (IOException missing) {
            throw new AssertionError(
                    "%s does not start: run server/verify, which installs what the tests need"
                            .formatted(builder.command().get(0)),
                    missing);
        }
    }

    /** Runs a program to its good end and gives what it wrote. */
    static String output(List<String> command) {
        Process process = start(new ProcessBuilder(command).redirectError(Redirect.DISCARD));
        try (var written = process.getInputStream()) {
            process.getOutputStream().close();
            String output = new String(written.readAllBytes(), StandardCharsets.UTF_8);
            expectSuccess(command, process);
            return output;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Runs a program in a folder, its input and output being files. */
    static void run(List<String> command, Path folder, Path input, Path output) {
        expectSuccess(
                command,
                start(
                        new ProcessBuilder(command)
                                .directory(folder.toFile())
                                .redirectInput(input.toFile())
                                .redirectOutput(output.toFile())
                                .redirectError(Redirect.DISCARD)));
    }

    private static void expectSuccess(List<String> command, Process process) {
        try {
            int status = process.waitFor();
            if (status != 0) {
                throw new AssertionError("Ended with %d: %s".formatted(status, command));
            }
        } catch (InterruptedException e) {
            process.destroyForcibly();
            Thread.currentThread().interrupt();
            throw new AssertionError("Interrupted: " + command, e);
        }
    }
}
