package lookstep.server;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import lookstep.protocols.wire.SerialLinePort;
import lookstep.server.cli.CameraWays;
import lookstep.server.cli.Outputs;
import lookstep.server.ftp.FtpCamera;
import lookstep.server.ftp.FtpSetup;
import lookstep.server.ftp.FtpWayIn;
import lookstep.server.gear.CameraControl;
import lookstep.server.gear.Gear;
import lookstep.server.gear.Gear.NetworkOutput;
import lookstep.server.gear.Gear.SerialOutput;
import lookstep.server.gear.WayIn;
import lookstep.server.output.SacnSetup;
import lookstep.server.plan.Light;
import lookstep.server.plan.ShootPlan;
import lookstep.server.ptpip.PtpIpCameraLink;

/**
 * What is plugged in for a real shoot, as the command line says.
 *
 * @param gear all of it
 * @param passwords of the cameras that upload, by name
 */
record RealGear(Gear gear, Map<String, String> passwords) {
    /** So that nothing is made for a command line that cannot be. */
    private static final UUID NOBODY = new UUID(0, 1);

    /**
     * Makes nothing.
     *
     * @throws IllegalArgumentException if the command line cannot be as it is written
     */
    static void check(Outputs outputs, CameraWays ways, ShootPlan plan) {
        line(outputs);
        network(outputs, plan, NOBODY);
        links(ways, NOBODY);
        ftp(
                ways,
                Optional.empty(),
                ways.ftpCameras().stream()
                        .collect(
                                Collectors.toMap(
                                        name -> name,
                                        name -> "word",
                                        (one, other) -> {
                                            throw new IllegalArgumentException(
                                                    "--ftp-camera: two cameras of one name");
                                        })));
    }

    /**
     * Puts it together.
     *
     * @param folder keeps who sends and the passwords, and the frames if they have no other place
     * @throws IOException if the folder cannot keep them
     */
    static RealGear of(Outputs outputs, CameraWays ways, ShootPlan plan, ShootFolder folder)
            throws IOException {
        UUID sender = folder.senderId();
        Path frames = ways.frames().orElse(folder.frames()).toAbsolutePath();
        if (ways.frames().isEmpty()) {
            Files.createDirectories(frames);
        }
        Map<String, String> passwords =
                ways.ftp().isEmpty() ? Map.of() : folder.cameraPasswords(ways.ftpCameras());
        List<PtpIpCameraLink> links = links(ways, sender);
        List<WayIn> all = new ArrayList<>(links);
        ftp(ways, Optional.of(folder.ftpKey()), passwords).ifPresent(all::add);
        // With several cameras nobody knows which one is in the photographer's hand.
        Optional<CameraControl> control =
                links.size() == 1 ? Optional.of(links.get(0).control()) : Optional.empty();
        return new RealGear(
                new Gear(
                        line(outputs),
                        network(outputs, plan, sender),
                        frames,
                        ways.copies().map(Path::toAbsolutePath),
                        all,
                        control,
                        false,
                        control.map(c -> c::release)),
                passwords);
    }

    private static Optional<SerialOutput> line(Outputs outputs) {
        SacnSetup.universe(String.valueOf(outputs.lineUniverse()));
        return outputs.line()
                .map(
                        device ->
                                new SerialOutput(
                                        new SerialLinePort(device), outputs.lineUniverse()));
    }

    private static Optional<NetworkOutput> network(Outputs outputs, ShootPlan plan, UUID sender) {
        return outputs.network().map(name -> network(name, outputs, plan, sender));
    }

    private static NetworkOutput network(
            String network, Outputs outputs, ShootPlan plan, UUID sender) {
        SacnSetup setup =
                new SacnSetup(
                        network,
                        outputs.multicast(),
                        outputs.machines().stream().map(SacnSetup::unicast).toList(),
                        plan.rig().stream().map(Light::universe).collect(Collectors.toSet()),
                        outputs.priority(),
                        outputs.syncUniverse(),
                        sender,
                        "Lookstep");
        return new NetworkOutput(setup.port(), setup);
    }

    private static List<PtpIpCameraLink> links(CameraWays ways, UUID guid) {
        return ways.cameras().stream().map(c -> PtpIpCameraLink.parse(c, guid)).toList();
    }

    private static Optional<WayIn> ftp(
            CameraWays ways, Optional<Path> key, Map<String, String> passwords) {
        if (ways.ftp().isEmpty()) {
            return Optional.empty();
        }
        boolean tls = ways.ftpTls() != CameraWays.Tls.OFF;
        FtpSetup setup =
                FtpSetup.usual(
                                tls ? key.or(() -> Optional.of(Path.of(""))) : Optional.empty(),
                                ways.ftpTls() == CameraWays.Tls.REQUIRED)
                        .on(ways.ftp().get(), FtpSetup.FIRST_DATA_PORT, FtpSetup.LAST_DATA_PORT);
        return Optional.of(
                new FtpWayIn(
                        setup,
                        ways.ftpCameras().stream()
                                .map(name -> new FtpCamera(name, passwords.get(name)))
                                .toList()));
    }
}
