package lookstep.server;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.LocalDateTime;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.protocols.wire.SerialAdapter;
import lookstep.protocols.wire.SerialAdapters;
import lookstep.protocols.wire.SerialLinePort;
import lookstep.server.cli.Actions;
import lookstep.server.cli.Cli;
import lookstep.server.cli.Greeting;
import lookstep.server.cli.Http;
import lookstep.server.gear.Gear;
import lookstep.server.live.LiveState;
import lookstep.server.plan.Shot;
import lookstep.server.plan.ShootPlan;
import lookstep.server.prediction.ShotNumbers;
import lookstep.server.rehearsal.Rehearsal;

/** Chooses the gear, real or rehearsed, and runs what the command line asks for. */
public final class Main implements Actions {
    private final PrintStream out = System.out;
    private final PrintStream err = System.err;

    private Main() {}

    public static void main(String[] args) {
        int code = new Cli(new Main()).run(args);
        System.exit(code);
    }

    // PLAN-READING goes here
}
