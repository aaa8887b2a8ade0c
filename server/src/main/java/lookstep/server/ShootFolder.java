package lookstep.server;

import java.io.IOException;
import java.nio.charset.CharacterCodingException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import lookstep.server.rehearsal.Rehearsal;
import lookstep.server.web.Keys;

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

    /**
     * Who sends, in the words of ANSI E1.31 (the CID): made once, and the same in every run of this
     * shoot; made anew if what was kept cannot be read.
     *
     * @throws IOException if it cannot be kept
     */
    UUID senderId() throws IOException {
        Path file = path.resolve("sender-id");
        if (Files.exists(file)) {
            try {
                return UUID.fromString(Files.readString(file).strip());
            } catch (IllegalArgumentException | CharacterCodingException damaged) {
                // cut off by a crash or a full disk: another name is better than no light
            }
        }
        UUID made = UUID.randomUUID();
        Files.writeString(file, made + "\n");
        return made;
    }

    /**
     * The passwords of cameras that upload: made once for each name, and the same in every run of
     * this shoot, for a camera's menu is no place to type on the set.
     *
     * @return password by name, in the order asked for
     * @throws IOException if they cannot be kept
     */
    Map<String, String> cameraPasswords(List<String> names) throws IOException {
        Path file = path.resolve("camera-passwords");
        Map<String, String> kept = new LinkedHashMap<>();
        if (Files.exists(file)) {
            for (String line : Files.readAllLines(file)) {
                int blank = line.indexOf(' ');
                if (blank > 0 && blank < line.length() - 1) {
                    kept.put(line.substring(0, blank), line.substring(blank + 1).strip());
                }
            }
        }
        SecureRandom random = new SecureRandom();
        Map<String, String> asked = new LinkedHashMap<>();
        for (String name : names) {
            asked.put(name, kept.computeIfAbsent(name, n -> Keys.word(random, 8)));
        }
        StringBuilder lines = new StringBuilder();
        kept.forEach((name, word) -> lines.append(name).append(' ').append(word).append('\n'));
        OwnersFile.write(file, lines.toString());
        return asked;
    }

    /** Where the key of an encrypted FTP is kept. */
    Path ftpKey() {
        return path.resolve("ftp-key");
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
