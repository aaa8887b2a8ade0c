package lookstep.server.rehearsal;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.locks.LockSupport;
import java.util.function.UnaryOperator;
import lookstep.server.ftp.FtpCamera;
import lookstep.server.ftp.FtpSetup;
import lookstep.server.ftp.FtpWayIn;
import lookstep.server.gear.CameraControl;
import lookstep.server.gear.WayIn;
import lookstep.server.ptpip.PtpIpCameraLink;
import lookstep.simulator.gear.CameraFile;
import lookstep.simulator.gear.CardWriter;
import lookstep.simulator.gear.Fault;
import lookstep.simulator.gear.FtpUploader;
import lookstep.simulator.gear.PtpIpCamera;
import lookstep.simulator.gear.Transfer;
import lookstep.simulator.model.optics.Camera;

/**
 * How the simulated camera's pictures get into the frames folder: its end and ours.
 *
 * @param transfer the camera's end
 * @param ways ours, none if the camera writes them there itself
 * @param control sets the camera, where the way can
 * @param dials what the camera is set to in truth, from what the stand-in would set by hand
 * @param end switches the camera's end off
 */
record CameraWay(
        Transfer transfer,
        List<WayIn> ways,
        Optional<CameraControl> control,
        UnaryOperator<Camera> dials,
        Runnable end) {
    private static final String NAME = "camera";

    /** Nobody else uploads to this machine itself. */
    private static final String PASSWORD = "rehearsal";

    /**
     * Sets both ends up.
     *
     * @param frames the frames folder, which is there
     * @param shutter makes a picture when the camera is released from here
     */
    static CameraWay of(Rehearsal.Way way, Path frames, Runnable shutter) throws IOException {
        return switch (way) {
            case FOLDER ->
                    new CameraWay(
                            new CardWriter(frames),
                            List.of(),
                            Optional.empty(),
                            UnaryOperator.identity(),
                            () -> {});
            case FTP -> ftp(frames);
            case PTPIP -> ptpip(shutter);
        };
    }

    private static CameraWay ftp(Path frames) throws IOException {
        FtpWayIn server =
                new FtpWayIn(
                        FtpSetup.usual(Optional.empty(), false).on(0, 0, 0),
                        List.of(new FtpCamera(NAME, PASSWORD)));
        Uploads uploads = new Uploads(server, count(frames.resolve(NAME)) + 1);
        return new CameraWay(
                uploads,
                List.of(server),
                Optional.empty(),
                UnaryOperator.identity(),
                uploads::close);
    }

    /** A camera goes on counting when it is switched on again. */
    private static long count(Path folder) throws IOException {
        if (!Files.isDirectory(folder)) {
            return 0;
        }
        long files = 0;
        try (DirectoryStream<Path> all = Files.newDirectoryStream(folder)) {
            for (Path ignored : all) {
                files++;
            }
        }
        return files;
    }

    private static CameraWay ptpip(Runnable shutter) throws IOException {
        PtpIpCamera camera =
                new PtpIpCamera(
                        PtpIpCamera.Offers.ALL, Clock.system(ZoneId.systemDefault()), shutter);
        InetSocketAddress at = camera.start(0);
        PtpIpCameraLink link = PtpIpCameraLink.parse("127.0.0.1:" + at.getPort(), new UUID(0, 1));
        return new CameraWay(
                camera, List.of(link), Optional.of(link.control()), camera::dialled, camera::close);
    }

    /** The port is known when the server has started, which is after the camera was made. */
    private static final class Uploads implements Transfer {
        private final FtpWayIn server;
        private final long firstNumber;
        private Optional<FtpUploader> uploader = Optional.empty();

        Uploads(FtpWayIn server, long firstNumber) {
            this.server = server;
            this.firstNumber = firstNumber;
        }

        private FtpUploader uploader() {
            if (uploader.isEmpty()) {
                uploader =
                        Optional.of(
                                new FtpUploader(
                                        new FtpUploader.Setup(
                                                "127.0.0.1",
                                                server.port(),
                                                NAME,
                                                PASSWORD,
                                                FtpUploader.Data.PASSIVE,
                                                FtpUploader.Privacy.PLAIN,
                                                FtpUploader.Delivery.STRAIGHT),
                                        firstNumber,
                                        LockSupport::parkNanos));
            }
            return uploader.get();
        }

        @Override
        public Path send(List<CameraFile> files) throws IOException {
            return uploader().send(files);
        }

        @Override
        public void misbehave(Fault.OfCamera fault) {
            uploader().misbehave(fault);
        }

        @Override
        public void mend() {
            uploader().mend();
        }

        void close() {
            uploader.ifPresent(FtpUploader::close);
        }
    }
}
