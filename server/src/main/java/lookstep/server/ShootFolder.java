package lookstep.server;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;
import java.util.Optional;
import lookstep.server.rehearsal.Rehearsal;

/**
 * Where a shoot keeps what came of it: beside its plan file, or for the demo in the user's own
 * state folder. Rehearsals and real shoots of one plan never share it.
 *
 * @param path the folder
 */
record ShootFolder(Path path) {
    static ShootFolder ofShoot(Path plan) {
        return new ShootFolder(beside(plan, ".shoot-journal"));
    }

    /**
     * @param plan empty for the demo
     */
    static ShootFolder ofRehearsal(Optional<Path> plan) {
        return new ShootFolder(
                plan.map(p -> beside(p, Rehearsal.FOLDER_ENDING))
                        .orElseGet(
                                () ->
                                        stateHome()
                                                .resolve("lookstep")
                                                .resolve("demo" + Rehearsal.FOLDER_ENDING)));
    }

    private static Path beside(Path plan, String ending) {
        String name = plan.toAbsolutePath().normalize().getFileName().toString();
        String stem = name.replaceFirst("(\\.shoot)?\\.ya?ml$", "");
        return plan.toAbsolutePath().normalize().resolveSibling(stem + ending);
    }

    /** The XDG base directory specification's place for state that outlives a restart. */
    private static Path stateHome() {
        String set = System.getenv("XDG_STATE_HOME");
        return set != null && !set.isBlank()
                ? Path.of(set)
                : Path.of(System.getProperty("user.home"), ".local", "state");
    }

    Path journal() {
        return path.resolve("journal");
    }

    Path frames() {
        return path.resolve("frames");
    }

    /** Makes the folder; nothing that is there is touched. */
    void make() throws IOException {
        try {
            Files.createDirectories(path);
        } catch (IOException e) {
            throw new IOException(
                    path
                            + " cannot be made ("
                            + e.getMessage()
                            + "): make its parent folder writable",
                    e);
        }
    }

    /** Renames the folder if there is one, so that the next begins anew and nothing is lost. */
    Optional<Path> putAside(LocalDateTime now) throws IOException {
        if (!Files.exists(path)) {
            return Optional.empty();
        }
        String when = now.format(DateTimeFormatter.ofPattern("yyyy-MM-dd-HHmmss"));
        Path aside = path.resolveSibling(path.getFileName() + "-" + when);
        Files.move(path, aside);
        return Optional.of(aside);
    }
}
