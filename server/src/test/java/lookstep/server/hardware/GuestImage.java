package lookstep.server.hardware;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * What the guest boots: a kernel of this machine's distribution, and a file system in memory with a
 * Java runtime, the product's jar and {@link GuestMain}.
 *
 * @param kernel unpacked by {@code server/verify}
 * @param files a cpio archive in the format the kernel unpacks (kernel documentation, 'initramfs
 *     buffer format')
 */
record GuestImage(Path kernel, Path files) {
    /** In the order in which they need each other. */
    private static final List<String> KERNEL_MODULES =
            List.of("usb-common", "usbcore", "xhci-hcd", "xhci-pci", "usbserial", "ftdi_sio");

    private static final List<String> RUNTIME_MODULES =
            List.of("java.base", "java.logging", "java.naming", "java.xml", "jdk.unsupported");

    private static final List<String> LIBRARIES =
            List.of(
                    "libc.so.6",
                    "libm.so.6",
                    "libdl.so.2",
                    "libpthread.so.0",
                    "librt.so.1",
                    "libz.so.1",
                    "libgcc_s.so.1",
                    "libstdc++.so.6");

    private static final Path SYSTEM_LIBRARIES = Path.of("lib", "x86_64-linux-gnu");

    /**
     * Makes one.
     *
     * @param folder for all that is made on the way; what is in it goes
     * @param productJar the runnable jar as the user gets it
     * @param adapters how many USB-serial adapters the guest has at its start, on USB ports 1, 2
     *     ...
     */
    static GuestImage build(Path folder, Path productJar, int adapters) {
        try {
            Path kernelFolder = kernelFolder();
            empty(folder);
            Path root = Files.createDirectory(folder.resolve("root"));
            for (String name :
                    List.of("bin", "dev", "proc", "sys", "tmp", "modules", "app", "lib64")) {
                Files.createDirectory(root.resolve(name));
            }
            copyProgram(Path.of("/usr/bin/busybox"), root.resolve("bin/busybox"));
            for (String name : KERNEL_MODULES) {
                copy(kernelFolder.resolve(name + ".ko"), root.resolve("modules"));
            }
            copyLibraries(root);
            copy(productJar, root.resolve("app"));
            copyOwnClasses(root.resolve("app"));
            linkRuntime(root.resolve("jre"));
            Path init = Files.writeString(root.resolve("init"), init(productJar, adapters));
            makeRunnable(init);
            return new GuestImage(kernelFolder.resolve("vmlinuz"), pack(folder, root));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static Path kernelFolder() {
        String cache = System.getenv("XDG_CACHE_HOME");
        Path folder =
                (cache == null || cache.isEmpty()
                                ? Path.of(System.getProperty("user.home"), ".cache")
                                : Path.of(cache))
                        .resolve("lookstep/guest-kernel");
        if (!Files.exists(folder.resolve("vmlinuz"))) {
            throw new AssertionError(
                    "No kernel for the guest in %s: run server/verify, which fetches it"
                            .formatted(folder));
        }
        return folder;
    }

    private static void copyLibraries(Path root) throws IOException {
        copy(Path.of("/lib64/ld-linux-x86-64.so.2"), root.resolve("lib64"));
        Path to = Files.createDirectories(root.resolve(SYSTEM_LIBRARIES));
        for (String name : LIBRARIES) {
            copy(Path.of("/").resolve(SYSTEM_LIBRARIES).resolve(name), to);
        }
    }

    private static void copyOwnClasses(Path app) throws IOException {
        Path own = Path.of(GuestMain.class.getPackageName().replace('.', '/'));
        Path to = Files.createDirectories(app.resolve(own));
        Path from = testClasses().resolve(own);
        try (Stream<Path> classes = Files.list(from)) {
            for (Path file : classes.filter(GuestImage::isGuestMain).toList()) {
                copy(file, to);
            }
        }
    }

    private static Path testClasses() {
        return Path.of(
                GuestMain.class.getProtectionDomain().getCodeSource().getLocation().getPath());
    }

    private static boolean isGuestMain(Path file) {
        return file.getFileName().toString().startsWith(GuestMain.class.getSimpleName());
    }

    private static void linkRuntime(Path to) {
        Tool.output(
                List.of(
                        Path.of(System.getProperty("java.home"), "bin", "jlink").toString(),
                        "--add-modules",
                        String.join(",", RUNTIME_MODULES),
                        "--strip-java-debug-attributes",
                        "--no-header-files",
                        "--no-man-pages",
                        "--output",
                        to.toString()));
    }

    /** The first process of the guest. */
    private static String init(Path productJar, int adapters) {
        return """
                #!/bin/busybox sh
                /bin/busybox --install -s /bin
                mount -t proc proc /proc; mount -t sysfs sys /sys; mount -t devtmpfs dev /dev
                for name in %s; do insmod /modules/$name.ko; done
                devices=
                for port in $(seq %d); do
                    tries=0
                    until tty=$(ls -d /sys/bus/usb/devices/*-$port/*/ttyUSB*) 2>/dev/null; do
                        tries=$((tries+1)); [ $tries -lt 300 ] || break; sleep 0.1
                    done
                    devices="$devices /dev/${tty##*/}"
                done
                echo "guest: adapters$devices"
                /jre/bin/java -XX:TieredStopAtLevel=1 -cp /app:/app/%s %s $devices
                poweroff -f
                """
                .formatted(
                        String.join(" ", KERNEL_MODULES),
                        adapters,
                        productJar.getFileName(),
                        GuestMain.class.getName());
    }

    private static Path pack(Path folder, Path root) throws IOException {
        Path names = folder.resolve("names");
        try (Stream<Path> all = Files.walk(root)) {
            Files.writeString(
                    names,
                    all.map(path -> "./" + root.relativize(path))
                            .collect(Collectors.joining("\n", "", "\n")));
        }
        Path archive = folder.resolve("initramfs");
        Tool.run(List.of("cpio", "-o", "-H", "newc", "--quiet"), root, names, archive);
        return archive;
    }

    private static void copyProgram(Path from, Path to) throws IOException {
        if (!Files.exists(from)) {
            throw new AssertionError(
                    "%s is missing: run server/verify, which installs what the tests need"
                            .formatted(from));
        }
        Files.copy(from, to);
        makeRunnable(to);
    }

    private static void copy(Path from, Path toFolder) throws IOException {
        Files.copy(
                from.toRealPath(),
                toFolder.resolve(from.getFileName()),
                StandardCopyOption.COPY_ATTRIBUTES);
    }

    private static void makeRunnable(Path file) {
        if (!file.toFile().setExecutable(true, false)) {
            throw new AssertionError("Cannot make runnable: " + file);
        }
    }

    private static void empty(Path folder) throws IOException {
        if (Files.exists(folder)) {
            try (Stream<Path> all = Files.walk(folder)) {
                for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
                    Files.delete(path);
                }
            }
        }
        Files.createDirectories(folder);
    }
}
