package lookstep.protocols.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SerialAdaptersTest {
    @TempDir Path dir;

    @Test
    void adaptersAreDescribedInPlainWords() throws Exception {
        Path byId = Files.createDirectory(dir.resolve("by-id"));
        Path builtIn = Files.createFile(dir.resolve("ttyS0"));
        Path named = Files.createFile(dir.resolve("ttyUSB0"));
        Path other = Files.createFile(dir.resolve("ttyUSB1"));
        Path link = Files.createSymbolicLink(byId.resolve("usb-a"), Path.of("../ttyUSB0"));
        Files.createSymbolicLink(byId.resolve("usb-b"), Path.of("../ttyUSB0"));
        Files.createSymbolicLink(byId.resolve("usb-gone"), Path.of("../ttyUSB9"));

        List<SerialAdapter> adapters =
                SerialAdapters.describe(
                        List.of(
                                new SerialAdapters.Seen(builtIn, "Physical Port S0", false),
                                new SerialAdapters.Seen(other, " ", true),
                                new SerialAdapters.Seen(named, "Light line ", true)),
                        byId,
                        path -> !path.equals(other));

        assertEquals(
                List.of(
                        new SerialAdapter(
                                named.toString(),
                                Optional.of(link.toString()),
                                "USB serial adapter, calls itself 'Light line'",
                                Optional.empty()),
                        new SerialAdapter(
                                other.toString(),
                                Optional.empty(),
                                "USB serial adapter",
                                Optional.of(
                                        "you may not use it. Add yourself to the group dialout"
                                                + " (sudo usermod -aG dialout $USER), log out and"
                                                + " in again.")),
                        new SerialAdapter(
                                builtIn.toString(),
                                Optional.empty(),
                                "serial port built into this machine; most cannot do 250 000 baud",
                                Optional.empty())),
                adapters);
        assertTrue(adapters.get(0).usable());
        assertEquals(link.toString(), adapters.get(0).path());
        assertFalse(adapters.get(1).usable());
        assertEquals(other.toString(), adapters.get(1).path());
    }

    @Test
    void worksWhereNoAdapterHasANameOfItsOwn() throws Exception {
        Path device = Files.createFile(dir.resolve("ttyUSB0"));
        List<SerialAdapter> adapters =
                SerialAdapters.describe(
                        List.of(new SerialAdapters.Seen(device, "", true)),
                        dir.resolve("none"),
                        path -> true);
        assertEquals(Optional.empty(), adapters.get(0).stablePath());
    }

    @Test
    void listOfThisMachineNamesDevicesThatAreThere() {
        for (SerialAdapter adapter : SerialAdapters.list()) {
            assertTrue(Files.exists(Path.of(adapter.path())), adapter::toString);
            assertFalse(adapter.what().isBlank());
        }
    }
}
