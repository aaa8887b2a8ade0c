package lookstep.server.cli;

import java.io.PrintStream;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.concurrent.Callable;
import lookstep.server.paper.PaperSize;
import lookstep.server.plan.file.FixtureFiles;
import lookstep.server.rehearsal.Rehearsal;
import lookstep.server.suggest.Options;
import picocli.CommandLine;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** The commands and their options. */
@Command(
        name = "lookstep",
        mixinStandardHelpOptions = true,
        version = "lookstep 0.1.0",
        synopsisSubcommandLabel = "COMMAND",
        description = {
            "One key steps the next look; the band sees every picture.",
            "",
            "Lights, mains, stands and flashing can hurt people: local codes and licensed practice come first."
                    + " DMX512 is not for hazards."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  lookstep rehearse                      the demo shoot on a simulated set",
            "  lookstep check tour.shoot.yaml         is the plan good?",
            "  lookstep ports                         which adapters and networks are there?",
            "  lookstep shoot tour.shoot.yaml --line /dev/serial/by-id/usb-... --frames /home/me/incoming",
            "  lookstep shoot tour.shoot.yaml --network eth0 --frames /home/me/incoming"
        },
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {
            "0:all went well",
            "1:something outside failed: a folder, an address, the journal",
            "2:the plan or the command line is wrong; nothing was started",
            "130, 143:ended by Ctrl-C or a polite kill, in order"
        })
public final class Cli implements Runnable {
    private static final int FTP_PORT = 2121;

    private static final String COPY_TO =
            "Copy each original to this folder as it arrives, read back and compared.";
    private static final String HTTP =
            "Where the pages are served, default ${DEFAULT-VALUE}; port 0 takes any free one.";

    private final Actions actions;
    private final CommandLine commandLine;

    public Cli(Actions actions, PrintStream out, PrintStream err) {
        this.actions = actions;
        commandLine =
                new CommandLine(this)
                        .addSubcommand(new Rehearse())
                        .addSubcommand(new Shoot())
                        .addSubcommand(new Check())
                        .addSubcommand(new Ports());
        commandLine.setOut(new PrintWriter(out, true, StandardCharsets.UTF_8));
        commandLine.setErr(new PrintWriter(err, true, StandardCharsets.UTF_8));
        commandLine.setCaseInsensitiveEnumValuesAllowed(true);
        commandLine.registerConverter(Http.class, new Http.Reader());
        commandLine
                .getSubcommands()
                .values()
                .forEach(c -> c.registerConverter(Http.class, new Http.Reader()));
    }

    /** Runs the command; returns the exit code. */
    public int run(String... args) {
        return commandLine.execute(args);
    }

    @Override
    public void run() {
        throw new CommandLine.ParameterException(
                commandLine, "Say what to do: a command is missing.");
    }

    /** Simulated gear. */
    @Command(
            name = "rehearse",
            mixinStandardHelpOptions = true,
            description = {
                "Rehearse a shoot on a simulated set: DMX bytes in, photographs out.",
                "Stopped or killed, the same command goes on where it was."
            },
            footerHeading = "%nExamples:%n",
            footer = {
                "  lookstep rehearse",
                "  lookstep rehearse tour.shoot.yaml --http 127.0.0.1:0",
                "  lookstep rehearse --way ftp",
                "  lookstep rehearse --new tour.shoot.yaml   a plan from nothing, made on the set page",
                "  lookstep rehearse --fresh"
            })
    private final class Rehearse implements Callable<Integer> {
        @Spec private CommandSpec spec;

        @Parameters(
                arity = "0..1",
                paramLabel = "FILE",
                description = "Plan file; without it the demo shoot.")
        private Path plan;

        @Option(
                names = "--new",
                paramLabel = "FILE",
                description =
                        "Begin a plan of your own in this file, which must not be there yet; the set"
                                + " page's editor fills it.")
        private Path begun;

        @Option(
                names = "--frames",
                paramLabel = "DIR",
                description = "Where the simulated camera's pictures arrive.")
        private Path frames;

        @Option(
                names = "--way",
                paramLabel = "WAY",
                defaultValue = "folder",
                description =
                        "How they get there: folder (the camera writes them there), ftp or ptpip;"
                                + " folder if left out.")
        private Rehearsal.Way way;

        @Option(names = "--copy-to", paramLabel = "DIR", description = COPY_TO)
        private Path copies;

        @Option(
                names = "--http",
                paramLabel = "HOST:PORT",
                defaultValue = "0.0.0.0:8037",
                description = HTTP)
        private Http http;

        @Option(names = "--fresh", description = "Put the former rehearsal aside and begin anew.")
        private boolean fresh;

        @Override
        public Integer call() {
            if (begun != null) {
                if (plan != null) {
                    throw new CommandLine.ParameterException(
                            spec.commandLine(), "Give --new FILE or a plan file, not both.");
                }
                int code = actions.begin(begun);
                if (code != Actions.GOOD) {
                    return code;
                }
                plan = begun;
            }
            return actions.rehearse(
                    Optional.ofNullable(plan),
                    Optional.ofNullable(frames),
                    way,
                    Optional.ofNullable(copies),
                    http,
                    fresh);
        }
    }

    /** Real gear. */
    @Command(
            name = "shoot",
            mixinStandardHelpOptions = true,
            description = {
                "Shoot: light over a serial DMX512 adapter, over sACN, or both; pictures from a folder that the camera's utility fills, over FTP, or over PTP/IP.",
                "Stopped or killed, the same command goes on at the same shot, look and clock."
            },
            footerHeading = "%nExamples:%n",
            footer = {
                "  lookstep shoot tour.shoot.yaml --line /dev/serial/by-id/usb-... --frames /home/me/incoming",
                "  lookstep shoot tour.shoot.yaml --network eth0 --frames /home/me/incoming",
                "  lookstep shoot tour.shoot.yaml --network eth0 --to 192.168.1.20 --frames /home/me/incoming",
                "  lookstep shoot tour.shoot.yaml --network eth0 --ftp --ftp-camera ines-body --copy-to /media/second",
                "  lookstep shoot tour.shoot.yaml --network eth0 --camera 192.168.1.30",
                "  lookstep ports      tells what to write behind --line and --network"
            })
    private final class Shoot implements Callable<Integer> {
        @Spec private CommandSpec spec;

        @Parameters(paramLabel = "FILE", description = "Plan file.")
        private Path plan;

        @Option(
                names = "--line",
                paramLabel = "DEVICE",
                description = "Serial adapter, see 'lookstep ports'. This, --network, or both.")
        private String line;

        @Option(
                names = "--line-universe",
                paramLabel = "N",
                description = "Universe that the line carries, 1 if left out.")
        private Integer lineUniverse;

        @Option(
                names = "--network",
                paramLabel = "INTERFACE",
                description =
                        "Send all universes of the plan as sACN through this network interface:"
                                + " its name or its IPv4 address, see 'lookstep ports'.")
        private String network;

        @Option(
                names = "--to",
                paramLabel = "HOST[:PORT]",
                description =
                        "Send to this machine, not to the multicast groups; may be given again.")
        private List<String> to = List.of();

        @Option(names = "--multicast", description = "With --to: the multicast groups as well.")
        private boolean multicast;

        @Option(
                names = "--priority",
                paramLabel = "N",
                description =
                        "sACN priority, 0 to 200, 100 if left out: of several senders lights act"
                                + " on the highest.")
        private Integer priority;

        @Option(
                names = "--sync-universe",
                paramLabel = "N",
                description = "Lights act together when told on this universe.")
        private Integer sync;

        @Option(
                names = "--frames",
                paramLabel = "DIR",
                description =
                        "Folder in which pictures arrive; with --ftp or --camera it may be left"
                                + " out, and is one beside the plan.")
        private Path frames;

        @Option(
                names = "--ftp",
                description =
                        "Take what cameras upload over FTP. The passwords are printed at the start.")
        private boolean ftp;

        @Option(
                names = "--ftp-port",
                paramLabel = "PORT",
                description = "With --ftp: the port, 2121 if left out.")
        private Integer ftpPort;

        @Option(
                names = "--ftp-camera",
                paramLabel = "NAME",
                description =
                        "With --ftp: a camera that may upload, by a name of your own; may be given"
                                + " again. 'camera' if left out.")
        private List<String> ftpCameras = List.of();

        @Option(
                names = "--ftp-tls",
                paramLabel = "WHETHER",
                description =
                        "With --ftp: encrypted for cameras that ask for it (offered), or for all"
                                + " (required); off if left out.")
        private CameraWays.Tls ftpTls;

        @Option(
                names = "--camera",
                paramLabel = "HOST[:PORT]",
                description =
                        "Fetch pictures from this camera over PTP/IP, and set it where it lets"
                                + " itself be set; may be given again.")
        private List<String> cameras = List.of();

        @Option(names = "--copy-to", paramLabel = "DIR", description = COPY_TO)
        private Path copies;

        @Option(
                names = "--http",
                paramLabel = "HOST:PORT",
                defaultValue = "0.0.0.0:8037",
                description = HTTP)
        private Http http;

        @Option(
                names = "--fresh",
                description = "Put the former journal of this shoot aside and begin anew.")
        private boolean fresh;

        @Override
        public Integer call() {
            if (line == null && network == null) {
                throw new CommandLine.ParameterException(
                        spec.commandLine(),
                        "Say where the light goes out: --line DEVICE, --network INTERFACE, or both.");
            }
            boolean needsNetwork = !to.isEmpty() || multicast || sync != null || priority != null;
            if (network == null && needsNetwork) {
                throw new CommandLine.ParameterException(
                        spec.commandLine(),
                        "--to, --multicast, --priority and --sync-universe are for sACN:"
                                + " add --network INTERFACE.");
            }
            if (line == null && lineUniverse != null) {
                throw new CommandLine.ParameterException(
                        spec.commandLine(), "--line-universe is for a line: add --line DEVICE.");
            }
            if (frames == null && !ftp && cameras.isEmpty()) {
                throw new CommandLine.ParameterException(
                        spec.commandLine(),
                        "Say where pictures come from: --frames DIR, --ftp, --camera HOST, or more"
                                + " than one.");
            }
            if (!ftp && (!ftpCameras.isEmpty() || ftpTls != null || ftpPort != null)) {
                throw new CommandLine.ParameterException(
                        spec.commandLine(),
                        "--ftp-camera, --ftp-port and --ftp-tls are for FTP: add --ftp.");
            }
            return actions.shoot(
                    plan,
                    new Outputs(
                            Optional.ofNullable(line),
                            lineUniverse == null ? 1 : lineUniverse,
                            Optional.ofNullable(network),
                            to,
                            to.isEmpty() || multicast,
                            priority == null ? 100 : priority,
                            sync == null ? OptionalInt.empty() : OptionalInt.of(sync)),
                    new CameraWays(
                            Optional.ofNullable(frames),
                            ftp
                                    ? Optional.of(ftpPort == null ? FTP_PORT : ftpPort)
                                    : Optional.empty(),
                            ftp && ftpCameras.isEmpty() ? List.of("camera") : ftpCameras,
                            ftpTls == null ? CameraWays.Tls.OFF : ftpTls,
                            cameras,
                            Optional.ofNullable(copies)),
                    http,
                    fresh);
        }
    }

    /** Reads a plan. */
    @Command(
            name = "check",
            mixinStandardHelpOptions = true,
            description = {
                "Read a plan file: every error with its line and its mend, or what the plan comes to.",
                "Or read a fixture's file (.fixture.yaml, .gdtf): what each slot does, what it gives.",
                "Exit code 0 if it can be read, whatever the checks find; 2 if not."
            },
            footerHeading = "%nExamples:%n",
            footer = {
                "  lookstep check tour.shoot.yaml",
                "  lookstep check tour.shoot.yaml --place 'the stairs'",
                "  lookstep check tour.shoot.yaml --json --strict   for programs",
                "  lookstep check tour.shoot.yaml --paper tour.pdf   a call sheet to print",
                "  lookstep check tour.shoot.yaml --suggest 5   looks that you have not thought of",
                "  lookstep check stage-panel.fixture.yaml",
                "  lookstep check --demo > tour.shoot.yaml      a plan to begin from",
                "  lookstep check --schema > shoot.schema.json  for your editor",
                "  lookstep check --fixture > my.fixture.yaml   a light of your own to begin from"
            })
    private final class Check implements Callable<Integer> {
        @ArgGroup(multiplicity = "1")
        private Which which;

        @Option(
                names = "--place",
                paramLabel = "NAME",
                defaultValue = "",
                description = "Check the plan at this of its places; the first if left out.")
        private String place;

        @Option(names = "--json", description = "Print the findings as JSON, and nothing else.")
        private boolean json;

        @Option(
                names = "--strict",
                description =
                        "End with 1 if a finding is wrong; the plan can be shot all the same.")
        private boolean strict;

        @Option(
                names = "--suggest",
                paramLabel = "N",
                description =
                        "Suggest N looks of this rig that differ most, by the model, and two more"
                                + " with one light moved.")
        private Integer suggest;

        @Option(
                names = "--shot",
                paramLabel = "ID",
                description =
                        "With --suggest: for the people and the camera of this shot; the first if"
                                + " left out.")
        private String shot;

        private static final class Which {
            @Parameters(paramLabel = "FILE", description = "Plan file, or a fixture's.")
            private Path plan;

            @Option(names = "--demo", description = "Print the demo shoot's plan file.")
            private boolean demo;

            @Option(names = "--schema", description = "Print the JSON Schema of plan files.")
            private boolean schema;

            @Option(names = "--fixture", description = "Print an example of a fixture file.")
            private boolean fixture;

            @Option(
                    names = "--fixture-schema",
                    description = "Print the JSON Schema of fixture files.")
            private boolean fixtureSchema;
        }

        @Option(
                names = "--paper",
                paramLabel = "FILE.pdf",
                description = "Write the plan as a call sheet as well, if it is good.")
        private Path paper;

        @Option(
                names = "--paper-size",
                paramLabel = "SIZE",
                description = "With --paper: a4 or letter, a4 if left out.")
        private PaperSize paperSize;

        @Spec private CommandSpec spec;

        @Override
        public Integer call() {
            int code = checkOrPrint();
            return code == Actions.GOOD && paper != null ? paper() : code;
        }

        private int paper() {
            return actions.paper(which.plan, paper, paperSize == null ? PaperSize.A4 : paperSize);
        }

        private void paperNeedsAPlan() {
            if (paper == null && paperSize != null) {
                throw new CommandLine.ParameterException(
                        spec.commandLine(), "--paper-size is for a sheet: add --paper FILE.pdf.");
            }
            if (paper != null && (which.plan == null || FixtureFiles.isFixture(which.plan))) {
                throw new CommandLine.ParameterException(
                        spec.commandLine(), "--paper is for a plan: name the plan file.");
            }
        }

        private void suggestNeedsAPlan() {
            if (suggest == null && shot != null) {
                throw new CommandLine.ParameterException(
                        spec.commandLine(), "--shot is for suggestions: add --suggest N.");
            }
            if (suggest != null && (which.plan == null || FixtureFiles.isFixture(which.plan))) {
                throw new CommandLine.ParameterException(
                        spec.commandLine(), "--suggest is for a plan: name the plan file.");
            }
            if (suggest != null && (suggest < 1 || suggest > Options.MOST)) {
                throw new CommandLine.ParameterException(
                        spec.commandLine(),
                        "--suggest "
                                + suggest
                                + ": ask for 1 to "
                                + Options.MOST
                                + " looks; more are hard to tell apart.");
            }
        }

        private Actions.Checking checking() {
            return new Actions.Checking(
                    json, strict, place, suggest == null ? 0 : suggest, shot == null ? "" : shot);
        }

        private int checkOrPrint() {
            paperNeedsAPlan();
            suggestNeedsAPlan();
            if (which.demo) {
                return actions.print(Actions.What.DEMO);
            }
            if (which.schema) {
                return actions.print(Actions.What.SCHEMA);
            } else if (which.fixture) {
                return actions.print(Actions.What.FIXTURE);
            }
            return which.fixtureSchema
                    ? actions.print(Actions.What.FIXTURE_SCHEMA)
                    : actions.check(which.plan, checking());
        }
    }

    /** Lists adapters. */
    @Command(
            name = "ports",
            mixinStandardHelpOptions = true,
            description =
                    "List the serial adapters that are plugged in and the network interfaces, in plain words.")
    private final class Ports implements Callable<Integer> {
        @Override
        public Integer call() {
            return actions.ports();
        }
    }
}
