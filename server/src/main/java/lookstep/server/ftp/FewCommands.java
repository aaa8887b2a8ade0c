package lookstep.server.ftp;

import java.io.IOException;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.ftpserver.command.Command;
import org.apache.ftpserver.command.CommandFactory;
import org.apache.ftpserver.command.CommandFactoryFactory;
import org.apache.ftpserver.command.impl.ABOR;
import org.apache.ftpserver.command.impl.AUTH;
import org.apache.ftpserver.command.impl.EPRT;
import org.apache.ftpserver.command.impl.EPSV;
import org.apache.ftpserver.command.impl.NOOP;
import org.apache.ftpserver.command.impl.OPTS;
import org.apache.ftpserver.command.impl.PASS;
import org.apache.ftpserver.command.impl.PASV;
import org.apache.ftpserver.command.impl.PBSZ;
import org.apache.ftpserver.command.impl.PORT;
import org.apache.ftpserver.command.impl.PROT;
import org.apache.ftpserver.command.impl.QUIT;
import org.apache.ftpserver.command.impl.STRU;
import org.apache.ftpserver.command.impl.SYST;
import org.apache.ftpserver.command.impl.TYPE;
import org.apache.ftpserver.command.impl.USER;
import org.apache.ftpserver.ftplet.DataConnection;
import org.apache.ftpserver.ftplet.DefaultFtpReply;
import org.apache.ftpserver.impl.FtpIoSession;

/** The commands that a camera needs, and no others; the table is all there is. */
final class FewCommands {
    private static final long REPLY_MILLIS = 10_000;
    private static final int FIRST_UNPRIVILEGED_PORT = 1024;

    /** h1,h2,h3,h4,p1,p2 (RFC 959, 4.1.2). */
    private static final Pattern PORT_OF_PORT = Pattern.compile(".*,(\\d{1,3}),(\\d{1,3})\\s*");

    /** d protocol d address d port d (RFC 2428, 2). */
    private static final Pattern PORT_OF_EPRT = Pattern.compile(".*\\D(\\d{1,5})\\D\\s*");

    private static final Pattern BYTES = Pattern.compile("\\d{1,18}");

    /** RFC 959, 4.1.3. */
    private static final Pattern BYTES_AND_RECORD = Pattern.compile("(\\d{1,18})(\\s+R\\s+\\d+)?");

    private FewCommands() {}

    /** One that has a camera's session. */
    private interface Step {
        DefaultFtpReply answer(FtpIoSession session, CameraSession camera, String argument)
                throws IOException;
    }

    static CommandFactory all(boolean tls, boolean tlsRequired) {
        Map<String, Command> all = new TreeMap<>();
        all.put("USER", new USER());
        all.put("PASS", new PASS());
        all.put("QUIT", new QUIT());
        all.put("NOOP", new NOOP());
        all.put("SYST", new SYST());
        all.put("OPTS", new OPTS());
        all.put("TYPE", new TYPE());
        all.put("STRU", new STRU());
        all.put("MODE", step(FewCommands::mode));
        all.put("FEAT", step((session, camera, argument) -> features(tls)));
        all.put("PASV", new PASV());
        all.put("EPSV", new EPSV());
        all.put("PORT", toHighPorts(new PORT(), PORT_OF_PORT));
        all.put("EPRT", toHighPorts(new EPRT(), PORT_OF_EPRT));
        if (tls) {
            all.put("AUTH", new AUTH());
            all.put("PBSZ", new PBSZ());
            all.put("PROT", new PROT());
        }
        all.put("ALLO", step(FewCommands::allocate));
        all.put("REST", step(FewCommands::goOnAt));
        all.put("STOR", new StoreCommand(StoreCommand.Kind.STORE, tlsRequired));
        all.put("STOU", new StoreCommand(StoreCommand.Kind.STORE_UNIQUE, tlsRequired));
        all.put("APPE", new StoreCommand(StoreCommand.Kind.APPEND, tlsRequired));
        all.put("ABOR", new ABOR());
        all.put("RNFR", step(FewCommands::renameFrom));
        all.put("RNTO", step(FewCommands::renameTo));
        all.put("SIZE", step(FewCommands::size));
        for (String name : new String[] {"PWD", "XPWD"}) {
            all.put(name, step((session, camera, argument) -> here(camera.place())));
        }
        for (String name : new String[] {"CWD", "XCWD"}) {
            all.put(name, step(FewCommands::goTo));
        }
        for (String name : new String[] {"CDUP", "XCUP"}) {
            all.put(name, step((session, camera, argument) -> goTo(session, camera, "/")));
        }
        for (String name : new String[] {"MKD", "XMKD"}) {
            all.put(name, step(FewCommands::makeFolder));
        }
        for (String name : new String[] {"LIST", "NLST", "MLSD"}) {
            all.put(name, (session, context, request) -> listNothing(session));
        }
        for (String name : new String[] {"RETR", "DELE", "RMD", "XRMD", "MLST", "MDTM"}) {
            all.put(name, step((session, camera, argument) -> onlySending()));
        }
        CommandFactoryFactory factory = new CommandFactoryFactory();
        factory.setUseDefaultCommands(false);
        factory.setCommandMap(all);
        return factory.createCommandFactory();
    }

    private static Command step(Step step) {
        return (session, context, request) -> {
            CameraSession camera = (CameraSession) session.getFileSystemView();
            session.resetState();
            session.write(step.answer(session, camera, request.getArgument()));
        };
    }

    /** A server that connects to any port can be sent against others: RFC 2577, 3. */
    private static Command toHighPorts(Command port, Pattern number) {
        return (session, context, request) -> {
            String argument = request.hasArgument() ? request.getArgument() : "";
            Matcher found = number.matcher(argument);
            if (found.matches()) {
                int wanted =
                        found.groupCount() == 2
                                ? Integer.parseInt(found.group(1)) * 256
                                        + Integer.parseInt(found.group(2))
                                : Integer.parseInt(found.group(1));
                if (wanted < FIRST_UNPRIVILEGED_PORT) {
                    session.resetState();
                    session.write(new DefaultFtpReply(504, "Ports below 1024 are not for this."));
                    return;
                }
            }
            port.execute(session, context, request);
        };
    }

    private static DefaultFtpReply features(boolean tls) {
        String both = "Features:\n UTF8\n EPRT\n EPSV\n REST STREAM\n SIZE\n";
        return new DefaultFtpReply(211, both + (tls ? " AUTH TLS\n PBSZ\n PROT\n" : "") + "End.");
    }

    private static DefaultFtpReply mode(
            FtpIoSession session, CameraSession camera, String argument) {
        return "S".equalsIgnoreCase(argument)
                ? new DefaultFtpReply(200, "Stream.")
                : new DefaultFtpReply(504, "Stream only.");
    }

    private static DefaultFtpReply allocate(
            FtpIoSession session, CameraSession camera, String argument) {
        Matcher bytes = BYTES_AND_RECORD.matcher(orEmpty(argument));
        if (!bytes.matches()) {
            return new DefaultFtpReply(501, "ALLO takes a number of bytes.");
        }
        camera.announce(Long.parseLong(bytes.group(1)));
        return new DefaultFtpReply(200, "Understood.");
    }

    /** RFC 3659, 5.3. The library's own forgets the place at the PASV that may follow. */
    private static DefaultFtpReply goOnAt(
            FtpIoSession session, CameraSession camera, String argument) {
        if (!BYTES.matcher(orEmpty(argument)).matches()) {
            return new DefaultFtpReply(501, "REST takes a number of bytes.");
        }
        camera.goOnAt(Long.parseLong(argument));
        return new DefaultFtpReply(350, "From " + argument + " on.");
    }

    private static DefaultFtpReply here(String place) {
        // RFC 959, appendix II: quotes within are doubled.
        return new DefaultFtpReply(257, "\"" + place.replace("\"", "\"\"") + "\"");
    }

    /** Folders are only believed in: all files of a camera lie side by side. */
    private static DefaultFtpReply goTo(
            FtpIoSession session, CameraSession camera, String argument) {
        Optional<String> place = place(argument);
        if (place.isEmpty()) {
            return new DefaultFtpReply(550, "There is no such folder.");
        }
        camera.goTo(place.get());
        return new DefaultFtpReply(250, "Now in " + place.get());
    }

    private static DefaultFtpReply makeFolder(
            FtpIoSession session, CameraSession camera, String argument) {
        return place(argument)
                .map(FewCommands::here)
                .orElse(new DefaultFtpReply(550, "There can be no such folder."));
    }

    private static Optional<String> place(String argument) {
        String path = orEmpty(argument);
        if (path.isEmpty() || SentName.leadsUp(path)) {
            return Optional.empty();
        }
        return Optional.of("/" + SentName.of(path).orElse(""));
    }

    private static DefaultFtpReply renameFrom(
            FtpIoSession session, CameraSession camera, String argument) {
        Optional<String> name = SentName.of(orEmpty(argument));
        return name.isPresent() && camera.renameFrom(name.get())
                ? new DefaultFtpReply(350, "To what?")
                : new DefaultFtpReply(550, "Only what was sent on this connection is renamed.");
    }

    private static DefaultFtpReply renameTo(
            FtpIoSession session, CameraSession camera, String argument) {
        if (!camera.isRenaming()) {
            return new DefaultFtpReply(503, "RNFR comes first.");
        }
        Optional<String> name = SentName.of(orEmpty(argument));
        if (name.isEmpty()) {
            return new DefaultFtpReply(553, "No file can have this name here.");
        }
        try {
            return new DefaultFtpReply(250, camera.renameTo(name.get(), argument));
        } catch (IOException e) {
            camera.down(
                    name.get()
                            + " came but could not be given its name ("
                            + e.getMessage()
                            + "): look at the disk of the frames folder, then send it again");
            return new DefaultFtpReply(451, "It could not be renamed: send it again later.");
        }
    }

    private static DefaultFtpReply size(FtpIoSession session, CameraSession camera, String argument)
            throws IOException {
        Optional<String> name = SentName.of(orEmpty(argument));
        Optional<Long> bytes = name.isEmpty() ? Optional.empty() : camera.bytesOf(name.get());
        return bytes.map(count -> new DefaultFtpReply(213, Long.toString(count)))
                .orElse(new DefaultFtpReply(550, "Only of files sent on this connection."));
    }

    private static DefaultFtpReply onlySending() {
        return new DefaultFtpReply(550, "Files may be sent here, and nothing else done with them.");
    }

    /** Cameras look before they send; they see an empty folder. */
    private static void listNothing(FtpIoSession session) throws IOException {
        try {
            if (session.getDataConnection().getInetAddress() == null) {
                session.write(new DefaultFtpReply(503, "PASV, EPSV, PORT or EPRT comes first."));
                return;
            }
            session.write(new DefaultFtpReply(150, "Nothing to see."))
                    .awaitUninterruptibly(REPLY_MILLIS);
            DataConnection connection;
            try {
                connection = session.getDataConnection().openConnection();
            } catch (Exception noConnection) {
                session.write(new DefaultFtpReply(425, "No data connection could be made."));
                return;
            }
            connection.transferToClient(session.getFtpletSession(), "");
            session.write(new DefaultFtpReply(226, "That was all."));
        } finally {
            session.resetState();
            session.getDataConnection().closeDataConnection();
        }
    }

    private static String orEmpty(String argument) {
        return argument == null ? "" : argument;
    }
}
