package lookstep.server.ftp;

import java.io.IOException;
import java.util.Optional;
import java.util.OptionalLong;
import lookstep.server.disk.DiskFull;
import org.apache.ftpserver.command.AbstractCommand;
import org.apache.ftpserver.ftplet.DataConnection;
import org.apache.ftpserver.ftplet.DataType;
import org.apache.ftpserver.ftplet.DefaultFtpReply;
import org.apache.ftpserver.ftplet.FtpReply;
import org.apache.ftpserver.ftplet.FtpRequest;
import org.apache.ftpserver.impl.FtpIoSession;
import org.apache.ftpserver.impl.FtpServerContext;
import org.apache.ftpserver.impl.ServerDataConnectionFactory;

/**
 * Takes a file: STOR, STOU, APPE (RFC 959, 4.1.3), and REST before STOR (RFC 3659, 5). The bytes
 * are kept as they come, also if the camera did not say TYPE I: every picture is binary.
 */
final class StoreCommand extends AbstractCommand {
    private static final long REPLY_MILLIS = 10_000;
    private static final String NAMELESS = "unnamed.jpg";

    /** Which of the three. */
    enum Kind {
        STORE,
        STORE_UNIQUE,
        APPEND
    }

    private final Kind kind;
    private final boolean tlsRequired;

    StoreCommand(Kind kind, boolean tlsRequired) {
        this.kind = kind;
        this.tlsRequired = tlsRequired;
    }

    @Override
    public void execute(FtpIoSession session, FtpServerContext context, FtpRequest request)
            throws IOException {
        FtpReply reply;
        try {
            reply = take(session, request.getArgument());
        } finally {
            session.resetState();
            session.getDataConnection().closeDataConnection();
        }
        session.write(reply);
    }

    private FtpReply take(FtpIoSession session, String argument) throws IOException {
        CameraSession camera = (CameraSession) session.getFileSystemView();
        OptionalLong announced = camera.takeAnnounced();
        long offset = camera.takeGoOnAt();
        String sentName = argument == null && kind == Kind.STORE_UNIQUE ? NAMELESS : argument;
        if (sentName == null || sentName.isEmpty()) {
            return reply(501, "A file needs a name.");
        }
        Optional<String> harmless = SentName.of(sentName);
        if (harmless.isEmpty()) {
            return reply(553, "No file can have this name here.");
        }
        ServerDataConnectionFactory data = session.getDataConnection();
        if (data.getInetAddress() == null) {
            return reply(503, "PASV, EPSV, PORT or EPRT comes first.");
        }
        if (tlsRequired && !data.isSecure()) {
            return reply(522, "Pictures need TLS too: PROT P comes first.");
        }
        String name =
                kind == Kind.STORE_UNIQUE
                        ? camera.folder().promise(harmless.get())
                        : harmless.get();
        Optional<Upload> opened;
        try {
            opened = open(camera.folder(), name, offset);
        } catch (IOException e) {
            return notTaken(camera, name, e);
        }
        if (opened.isEmpty()) {
            return kind == Kind.APPEND
                    ? reply(550, "It is whole already.")
                    : reply(554, "So much of it is not here: send it from the start.");
        }
        try (Upload upload = opened.get()) {
            // RFC 1123, 4.1.2.9, says how the name of STOU is told.
            session.write(reply(150, kind == Kind.STORE_UNIQUE ? "FILE: " + name : "Send " + name))
                    .awaitUninterruptibly(REPLY_MILLIS);
            return take(session, camera, upload, sentName, announced);
        }
    }

    private Optional<Upload> open(CameraFolder folder, String name, long offset)
            throws IOException {
        if (offset > 0 && kind == Kind.STORE) {
            return folder.goOn(name, Optional.of(offset));
        }
        if (kind == Kind.APPEND) {
            Optional<Upload> half = folder.goOn(name, Optional.empty());
            if (half.isPresent() || folder.isTaken(name)) {
                return half;
            }
        }
        return Optional.of(folder.begin(name));
    }

    private static FtpReply take(
            FtpIoSession session,
            CameraSession camera,
            Upload upload,
            String sentName,
            OptionalLong announced)
            throws IOException {
        DataConnection connection;
        try {
            connection = session.getDataConnection().openConnection();
        } catch (Exception noConnection) {
            camera.stopped(upload);
            return reply(425, "No data connection could be made.");
        }
        DataType type = session.getDataType();
        session.setDataType(DataType.BINARY);
        try {
            connection.transferFromClient(session.getFtpletSession(), upload);
        } catch (IOException broken) {
            if (upload.trouble().isPresent()) {
                return notTaken(camera, upload, upload.trouble().get());
            }
            return reply(426, camera.stopped(upload) + ".");
        } finally {
            session.setDataType(type);
        }
        if (announced.isPresent() && announced.getAsLong() != upload.bytes()) {
            return reply(426, camera.stopped(upload) + ".");
        }
        if (upload.bytes() == 0) {
            return reply(451, camera.empty(upload) + ".");
        }
        try {
            upload.sync();
            upload.close();
            return reply(226, camera.came(upload, sentName));
        } catch (IOException e) {
            return notTaken(camera, upload, e);
        }
    }

    private static FtpReply notTaken(CameraSession camera, Upload upload, IOException trouble)
            throws IOException {
        // The camera still has it; half a file would only fill the disk again.
        upload.close();
        camera.folder().drop(upload);
        return notTaken(camera, upload.name(), trouble);
    }

    private static FtpReply notTaken(CameraSession camera, String name, IOException trouble) {
        if (DiskFull.is(trouble)) {
            camera.down(
                    "the disk of the frames folder is full: make room, then send "
                            + name
                            + " again; nothing that came is lost");
            return reply(452, "The disk is full: send it again later.");
        }
        camera.down(
                name
                        + " could not be written ("
                        + trouble.getMessage()
                        + "): look at the disk of the frames folder, then send it again");
        return reply(451, "It could not be written: send it again later.");
    }

    private static FtpReply reply(int code, String words) {
        return new DefaultFtpReply(code, words);
    }
}
