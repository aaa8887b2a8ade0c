package lookstep.protocols.wire;

import com.fazecast.jSerialComm.SerialPort;
import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;

/** Finds the serial devices of this machine. */
public final class SerialAdapters {
    static final String NO_PERMISSION =
            "you may not use it. Add yourself to the group dialout (sudo usermod -aG dialout"
                    + " $USER), log out and in again.";

    private static final Path BY_ID = Path.of("/dev/serial/by-id");

    private SerialAdapters() {}

    /**
     * What the system says of one device.
     *
     * @param path of the device
     * @param product the name it gives itself, perhaps empty
     * @param usb whether it hangs on USB
     */
    record Seen(Path path, String product, boolean usb) {}

    /** Those there are now, USB adapters first, then by path. */
    public static List<SerialAdapter> list() {
        List<Seen> seen = new ArrayList<>();
        for (SerialPort port : SerialPort.getCommPorts()) {
            // the library gives -1 where there is no USB vendor
            boolean usb = port.getVendorID() > 0;
            seen.add(new Seen(Path.of(port.getSystemPortPath()), port.getPortDescription(), usb));
        }
        return describe(seen, BY_ID, path -> Files.isReadable(path) && Files.isWritable(path));
    }

    static List<SerialAdapter> describe(List<Seen> seen, Path byId, Predicate<Path> allowed) {
        Map<Path, String> stable = stablePaths(byId);
        return seen.stream()
                .sorted(
                        Comparator.comparing(Seen::usb)
                                .reversed()
                                .thenComparing(one -> one.path().toString()))
                .map(
                        one ->
                                new SerialAdapter(
                                        one.path().toString(),
                                        Optional.ofNullable(stable.get(real(one.path()))),
                                        what(one),
                                        allowed.test(one.path())
                                                ? Optional.empty()
                                                : Optional.of(NO_PERMISSION)))
                .toList();
    }

    private static String what(Seen seen) {
        if (!seen.usb()) {
            return "serial port built into this machine; most cannot do 250 000 baud";
        }
        return seen.product().isBlank()
                ? "USB serial adapter"
                : "USB serial adapter, calls itself '" + seen.product().strip() + "'";
    }

    private static Map<Path, String> stablePaths(Path byId) {
        Map<Path, String> paths = new HashMap<>();
        try (DirectoryStream<Path> links = Files.newDirectoryStream(byId)) {
            for (Path link : links) {
                // two links to one device: keep the first by name, so that the answer is steady
                paths.merge(
                        real(link),
                        link.toString(),
                        (one, other) -> one.compareTo(other) <= 0 ? one : other);
            }
        } catch (NoSuchFileException e) {
            // no adapter with a name of its own is plugged in
            return Map.of();
        } catch (IOException e) {
            // unreadable: the plain paths still work
            return Map.of();
        }
        return paths;
    }

    private static Path real(Path path) {
        try {
            return path.toRealPath();
        } catch (IOException e) {
            // pulled this moment, or no file of this system
            return path.toAbsolutePath();
        }
    }
}
