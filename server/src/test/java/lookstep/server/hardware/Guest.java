package lookstep.server.hardware;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.net.StandardProtocolFamily;
import java.net.UnixDomainSocketAddress;
import java.nio.ByteBuffer;
import java.nio.channels.SocketChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;

/**
 * A machine in software with emulated USB-serial adapters, whose USB traffic is recorded. Adapters
 * are pulled and plugged in through QEMU's monitor.
 */
final class Guest implements AutoCloseable {
    private static final long PATIENCE_SECONDS = 300;
    private static final String SPARE = "spare";
    private static final String END = "(the guest has ended)";

    private final Process machine;
    private final Path socketFolder;
    private final BlockingQueue<String> lines = new LinkedBlockingQueue<>();
    private final List<String> heard = new ArrayList<>();

    private Guest(Process machine, Path socketFolder) {
        this.machine = machine;
        this.socketFolder = socketFolder;
    }

    /**
     * Starts one; the caller closes it.
     *
     * @param captures one file for each adapter, on USB ports 1, 2 ...; written by the guest
     */
    static Guest boot(GuestImage image, List<Path> captures) {
        try {
            // the name of a Unix socket may have 107 bytes at most: too few for a deep build folder
            Path socketFolder = Files.createTempDirectory("guest");
            List<String> command = new ArrayList<>(List.of("qemu-system-x86_64"));
            command.addAll(List.of("-M", "q35", "-accel", "tcg", "-m", "1024", "-no-reboot"));
            command.addAll(List.of("-nodefaults", "-display", "none", "-serial", "stdio"));
            command.addAll(List.of("-kernel", image.kernel().toString()));
            command.addAll(List.of("-initrd", image.files().toString()));
            command.addAll(List.of("-append", "console=ttyS0 quiet panic=-1"));
            command.addAll(
                    List.of(
                            "-monitor",
                            "unix:%s,server=on,wait=off".formatted(monitor(socketFolder))));
            command.addAll(List.of("-device", "qemu-xhci,id=usb,p2=8,p3=8"));
            for (int port = 1; port <= captures.size(); port++) {
                command.addAll(List.of("-chardev", farEnd("far" + port)));
                command.addAll(
                        List.of("-device", adapter(port, "far" + port, captures.get(port - 1))));
            }
            command.addAll(List.of("-chardev", farEnd(SPARE)));
            Process machine = Tool.start(new ProcessBuilder(command).redirectErrorStream(true));
            machine.getOutputStream().close();
            Guest guest = new Guest(machine, socketFolder);
            Thread listener = new Thread(guest::listen, "guest console");
            listener.setDaemon(true);
            listener.start();
            return guest;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Waits until the guest says so on its console; fails when it ends without. */
    void await(String saying) {
        try {
            String line;
            do {
                line = lines.poll(PATIENCE_SECONDS, TimeUnit.SECONDS);
                heard.add(String.valueOf(line));
            } while (line != null && !line.equals(END) && !line.contains(saying));
            if (line == null || line.equals(END)) {
                throw new AssertionError(
                        "The guest never said '%s'. What it said:%n%s"
                                .formatted(saying, String.join("\n", heard)));
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new AssertionError("Interrupted while the guest ran", e);
        }
    }

    void pullAdapter(int port) {
        order("device_del far%d-adapter".formatted(port));
    }

    /**
     * Puts an adapter back into a USB port, once, with a capture file of its own. It has its own
     * far end too: the pulled one's is let go some time later.
     */
    void plugAdapter(int port, Path capture) {
        order("device_add " + adapter(port, SPARE, capture));
    }

    /** Waits until the guest has powered itself off, after which its captures are whole. */
    void awaitEnd() {
        try {
            if (!machine.waitFor(PATIENCE_SECONDS, TimeUnit.SECONDS)) {
                throw new AssertionError("The guest did not power off");
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new AssertionError("Interrupted while the guest ran", e);
        }
    }

    @Override
    public void close() {
        machine.destroyForcibly();
        try {
            Files.deleteIfExists(monitor(socketFolder));
            Files.deleteIfExists(socketFolder);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Where the bytes go; a 'null' end would count as unplugged. */
    private static String farEnd(String name) {
        return "file,path=/dev/null,id=" + name;
    }

    private static String adapter(int port, String farEnd, Path capture) {
        return "usb-serial,id=%2$s-adapter,bus=usb.0,port=%1$d,chardev=%2$s,pcap=%3$s"
                .formatted(port, farEnd, capture);
    }

    private static Path monitor(Path socketFolder) {
        return socketFolder.resolve("monitor");
    }

    private void order(String command) {
        try (SocketChannel channel = SocketChannel.open(StandardProtocolFamily.UNIX)) {
            channel.connect(UnixDomainSocketAddress.of(monitor(socketFolder)));
            awaitPrompt(channel);
            channel.write(StandardCharsets.UTF_8.encode(command + "\n"));
            awaitPrompt(channel);
        } catch (IOException e) {
            throw new UncheckedIOException("The guest's monitor did not take: " + command, e);
        }
    }

    private static void awaitPrompt(SocketChannel channel) throws IOException {
        StringBuilder said = new StringBuilder();
        ByteBuffer buffer = ByteBuffer.allocate(4096);
        while (!said.toString().endsWith("(qemu) ")) {
            if (channel.read(buffer) < 0) {
                throw new IOException("closed after: " + said);
            }
            said.append(StandardCharsets.UTF_8.decode(buffer.flip()));
            buffer.clear();
        }
        int error = said.indexOf("Error");
        if (error >= 0) {
            throw new IOException(said.substring(error));
        }
    }

    private void listen() {
        try (BufferedReader console =
                new BufferedReader(
                        new InputStreamReader(machine.getInputStream(), StandardCharsets.UTF_8))) {
            String line;
            while ((line = console.readLine()) != null) {
                lines.add(line);
            }
        } catch (IOException e) {
            lines.add(e.toString());
        }
        lines.add(END);
    }
}
