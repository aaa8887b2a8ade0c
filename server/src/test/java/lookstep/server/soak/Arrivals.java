package lookstep.server.soak;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lookstep.simulator.gear.SimulatedCamera;

/**
 * Pictures that come into the folder: of the simulated set as it is lit, and every tenth a file as
 * large as a real camera's. One thread; {@link #sent} from any.
 */
public final class Arrivals {
    private static final int LARGE_EVERY = 10;
    private static final int PIECE_BYTES = 1 << 16;

    private final SimulatedCamera camera;
    private final Path folder;
    private final byte[] large;
    private final List<String> sent = new ArrayList<>();

    /**
     * @param camera fills the folder
     * @param large a whole JPEG
     */
    public Arrivals(SimulatedCamera camera, Path folder, byte[] large) {
        this.camera = camera;
        this.folder = folder;
        this.large = large;
    }

    /** One more; returns when it is whole. */
    public void one() throws IOException {
        int number = sent().size() + 1;
        Optional<Path> file =
                number % LARGE_EVERY == 0
                        ? Optional.of(large("LARGE_%05d.JPG".formatted(number), number))
                        : camera.photograph();
        String name = file.orElseThrow().getFileName().toString();
        synchronized (sent) {
            sent.add(name);
        }
    }

    /** Straight under its last name and in pieces, so that half of it is seen at first. */
    private Path large(String name, int number) throws IOException {
        Path file = folder.resolve(name);
        try (OutputStream out = Files.newOutputStream(file, StandardOpenOption.CREATE_NEW)) {
            for (int at = 0; at < large.length; at += PIECE_BYTES) {
                out.write(large, at, Math.min(PIECE_BYTES, large.length - at));
            }
            // the same picture twice would be one frame
            out.write(new byte[] {0, (byte) (number >> 8), (byte) number});
        }
        return file;
    }

    /** The names, in order. */
    public List<String> sent() {
        synchronized (sent) {
            return List.copyOf(sent);
        }
    }
}
