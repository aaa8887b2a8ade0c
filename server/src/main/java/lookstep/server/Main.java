package lookstep.server;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicReference;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.protocols.wire.NetworkAdapter;
import lookstep.protocols.wire.NetworkInterfaces;
import lookstep.protocols.wire.SerialAdapter;
import lookstep.protocols.wire.SerialAdapters;
import lookstep.server.checks.Finding;
import lookstep.server.checks.Kind;
import lookstep.server.checks.PlanChecks;
import lookstep.server.checks.Report;
import lookstep.server.checks.ReportJson;
import lookstep.server.checks.ReportText;
import lookstep.server.checks.Weight;
import lookstep.server.cli.Actions;
import lookstep.server.cli.CameraWays;
import lookstep.server.cli.Cli;
import lookstep.server.cli.Greeting;
import lookstep.server.cli.Http;
import lookstep.server.cli.Outputs;
import lookstep.server.fixture.GdtfSource;
import lookstep.server.gear.Gear;
import lookstep.server.lighting.Lighting;
import lookstep.server.lighting.Shown;
import lookstep.server.live.Event;
import lookstep.server.live.Journal;
import lookstep.server.live.LiveState;
import lookstep.server.live.PlateRun;
import lookstep.server.look.Adjustment;
import lookstep.server.order.Variety;
import lookstep.server.paper.PaperSize;
import lookstep.server.paper.PdfFile;
import lookstep.server.paper.Sheet;
import lookstep.server.patch.PatchReport;
import lookstep.server.patch.PatchText;
import lookstep.server.plan.FixtureText;
import lookstep.server.plan.Location;
import lookstep.server.plan.PlanHash;
import lookstep.server.plan.PlanText;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plan.edit.EditRefused;
import lookstep.server.plan.edit.PlanKeeper;
import lookstep.server.plan.file.DemoShoot;
import lookstep.server.plan.file.ExampleFixture;
import lookstep.server.plan.file.FixtureFiles;
import lookstep.server.plan.file.FixtureReading;
import lookstep.server.plan.file.NewPlan;
import lookstep.server.plan.file.PlanReader;
import lookstep.server.plan.file.PlanReading;
import lookstep.server.rehearsal.Rehearsal;
import lookstep.server.suggest.Options;
import lookstep.server.suggest.SuggestJson;
import lookstep.server.suggest.SuggestText;
import lookstep.server.suggest.Suggestions;
import lookstep.server.window.PlannedOrder;
import lookstep.server.window.ShotItems;
import lookstep.server.window.TimeCheck;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Chooses the gear, real or rehearsed, and runs what the command line asks for. */
public final class Main implements Actions {
    private static final Logger LOG = LoggerFactory.getLogger(Main.class);

    /**
     * The code for the tablet is drawn in blocks that no other charset has, whatever the locale.
     */
    private final PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);

    private final PrintStream err = new PrintStream(System.err, true, StandardCharsets.UTF_8);

    private Main() {}

    public static void main(String[] args) {
        // Undertow's own words go where ours go.
        System.setProperty("org.jboss.logging.provider", "slf4j");
        Main main = new Main();
        int code = new Cli(main, main.out, main.err).run(args);
        System.exit(code);
    }

    @Override
    public int begin(Path file) {
        try {
            Files.writeString(file, NewPlan.text(), StandardOpenOption.CREATE_NEW);
            return GOOD;
        } catch (FileAlreadyExistsException there) {
            err.printf(
                    "%s is there already: rehearse it without --new, or choose another name%n",
                    file);
            return WRONG;
        } catch (IOException e) {
            return failed(e);
        }
    }

    @Override
    public int rehearse(
            Optional<Path> file,
            Optional<Path> frames,
            Rehearsal.Way way,
            Optional<Path> copies,
            Http http,
            boolean fresh) {
        ShootFolder folder = ShootFolder.ofRehearsal(file);
        if (file.isPresent() && read(file.get()).isEmpty()) {
            return WRONG;
        }
        if (copies.isPresent() && !secondPlace(copies.get())) {
            return FAILED;
        }
        try {
            make(folder, fresh);
            Optional<PlanKeeper> plan = file.isPresent() ? keep(file.get()) : keepDemo(folder);
            if (plan.isEmpty()) {
                return WRONG;
            }
            try (Journal journal = Journal.open(folder.journal());
                    Rehearsal rehearsal =
                            Rehearsal.start(
                                    plan.get().current().plan().at(""),
                                    folder.path(),
                                    frames.orElse(folder.frames()),
                                    way,
                                    copies);
                    Session session = session(plan.get(), rehearsal.gear(), journal, http)) {
                LiveState now = session.live().state();
                rehearsal.follow(session.lighting().plan());
                rehearsal.place(session.lighting().shot(now), session.lighting().shown(now).look());
                if (session.lighting().shown(now).what() == Shown.What.PLATE) {
                    placeForPlates(rehearsal, session.lighting(), now);
                }
                follow(session, rehearsal);
                greet("Rehearsing ‘%s’ on a simulated set.", session, http);
                untilStopped(session, rehearsal, journal);
            }
            return GOOD;
        } catch (IOException e) {
            return failed(e);
        }
    }

    @Override
    public int shoot(Path file, Outputs outputs, CameraWays ways, Http http, boolean fresh) {
        Thread beside = new Thread(Journal::prepare, "prepare");
        beside.setDaemon(true);
        beside.start();
        Optional<ShootPlan> plan = read(file);
        if (plan.isEmpty()) {
            return WRONG;
        }
        Optional<String> line = outputs.line();
        if (line.isPresent() && Rehearsal.owns(Path.of(line.get()))) {
            err.printf(
                    "%s is the simulated line of a rehearsal, and nobody is lit by it: write a real adapter behind --line%n",
                    line.get());
            return FAILED;
        }
        ShootFolder folder = ShootFolder.ofShoot(file);
        // Once the shoot is under way a folder that is gone is told on the pages, and the light
        // goes on.
        boolean begins = fresh || !Files.exists(folder.journal());
        if (begins && ways.frames().isPresent() && !Files.isDirectory(ways.frames().get())) {
            err.printf(
                    "%s: there is no such folder; make it, and set the camera's utility to fill it%n",
                    ways.frames().get());
            return FAILED;
        }
        if (begins && ways.copies().isPresent() && !secondPlace(ways.copies().get())) {
            return FAILED;
        }
        try {
            // what is wrong with the command line is said before anything is made
            RealGear.check(outputs, ways, plan.get());
        } catch (IllegalArgumentException wrong) {
            err.println(wrong.getMessage());
            return WRONG;
        }
        try {
            make(folder, fresh);
            RealGear real = RealGear.of(outputs, ways, plan.get(), folder);
            Optional<PlanKeeper> keeper = keep(file);
            if (keeper.isEmpty()) {
                return WRONG;
            }
            try (Journal journal = Journal.open(folder.journal());
                    Session session = session(keeper.get(), real.gear(), journal, http)) {
                greet("Shooting ‘%s’.", session, http);
                out.print(Greeting.uploads(ways.ftp(), real.passwords()));
                if (line.isPresent() && !Files.exists(Path.of(line.get()))) {
                    out.printf(
                            "%nNothing is at %s yet: plug the adapter in, output begins by itself.%n",
                            line.get());
                    ports();
                }
                untilStopped(session, journal);
            }
            return GOOD;
        } catch (IOException e) {
            return failed(e);
        }
    }

    private boolean secondPlace(Path copies) {
        if (Files.isDirectory(copies)) {
            return true;
        }
        err.printf(
                "%s: there is no such folder for copies; plug the drive in, or make the folder%n",
                copies);
        return false;
    }

    @Override
    public int check(Path file, Checking how) {
        if (FixtureFiles.isFixture(file)) {
            return checkFixture(file);
        }
        Optional<ShootPlan> read = read(file);
        if (read.isEmpty()) {
            return WRONG;
        }
        List<String> places = read.get().locations().stream().map(Location::name).toList();
        if (!how.place().isEmpty() && !places.contains(how.place())) {
            err.println(
                    plain(
                            "%s has no place ‘%s’; write one of: %s"
                                    .formatted(file, how.place(), String.join(", ", places))));
            return WRONG;
        }
        ShootPlan plan = read.get().at(how.place());
        Optional<Shot> shot =
                how.shot().isEmpty() ? plan.shots().stream().findFirst() : plan.shot(how.shot());
        if (how.suggest() > 0 && shot.isEmpty()) {
            err.println(plain(noShot(file, plan, how.shot())));
            return WRONG;
        }
        Report report = report(plan);
        Optional<Suggestions> suggestions =
                shot.filter(s -> how.suggest() > 0)
                        .map(s -> Suggestions.modelled(plan, s, Options.usual(how.suggest())));
        if (how.json()) {
            out.print(
                    suggestions
                            .map(
                                    s ->
                                            ReportJson.of(plan, report)
                                                    .text(Map.of("suggestions", SuggestJson.of(s))))
                            .orElseGet(() -> ReportJson.of(plan, report).text()));
            out.flush();
        } else {
            out.println(plain(PlanText.of(plan)));
            out.println(plain(LightsText.of(plan)));
            out.println(plain(PatchText.of(PatchReport.of(plan))));
            out.print(plain(ReportText.of(plan, report.without(Kind.ADDRESSES))));
            suggestions.ifPresent(s -> out.print("\n" + plain(SuggestText.of(s))));
        }
        return how.strict() && report.worst() == Weight.WRONG ? FAILED : GOOD;
    }

    private static String noShot(Path file, ShootPlan plan, String id) {
        return plan.shots().isEmpty()
                ? "%s has no shot to suggest looks for; write one".formatted(file)
                : "%s has no shot ‘%s’; write one of: %s"
                        .formatted(
                                file,
                                id,
                                String.join(", ", plan.shots().stream().map(Shot::id).toList()));
    }

    /** All checks, and whether the time suffices. */
    private static Report report(ShootPlan plan) {
        List<Finding> all = new ArrayList<>(PlanChecks.of(plan).findings());
        if (!plan.shots().isEmpty()) {
            all.addAll(TimeCheck.of(plan, PlannedOrder.of(plan, Variety.of(ShotItems.of(plan)))));
        }
        return new Report(all);
    }

    @Override
    public int paper(Path file, Path pdf, PaperSize size) {
        PlanReading reading = new PlanReader(GenericFixtures.all(), new GdtfSource()).read(file);
        if (!(reading instanceof PlanReading.Good good)) {
            return WRONG;
        }
        ShootPlan plan = good.plan();
        ShootPlan first = plan.at("");
        try {
            PdfFile.write(
                    new Sheet(
                            plan,
                            plan.shots().stream().map(Shot::id).toList(),
                            PlannedOrder.of(first, Variety.of(ShotItems.of(first)))
                                    .startsAtSeconds(),
                            PaperRemarks.of(plan),
                            size,
                            String.valueOf(file.getFileName()),
                            PlanHash.of(plan),
                            LocalDateTime.now(ZoneId.systemDefault())),
                    pdf);
        } catch (IOException e) {
            return failed(e);
        }
        out.printf("%nThe call sheet is in %s%n", plain(pdf.toString()));
        return GOOD;
    }

    private int checkFixture(Path file) {
        FixtureReading reading = new FixtureFiles(new GdtfSource()).read(file);
        if (reading instanceof FixtureReading.Bad bad) {
            bad.errors().forEach(e -> err.println(plain(e.text(file.toString()))));
            return WRONG;
        }
        FixtureReading.Good good = (FixtureReading.Good) reading;
        out.print(plain(FixtureText.of(good.fixtures(), good.notes())));
        return GOOD;
    }

    @Override
    public int ports() {
        List<SerialAdapter> adapters = SerialAdapters.list();
        if (adapters.isEmpty()) {
            out.println("No serial adapter is plugged in.");
        } else {
            out.println("Serial adapters here; write the path of one behind --line:");
            for (SerialAdapter adapter : adapters) {
                out.println("  " + adapter.path());
                out.println("      " + adapter.what());
                adapter.trouble().ifPresent(t -> out.println("      not usable: " + t));
            }
        }
        out.println();
        out.println("Network interfaces here; write the name of one behind --network:");
        for (NetworkAdapter network : NetworkInterfaces.list()) {
            out.println("  " + network.name() + "  " + String.join(", ", network.ipv4()));
            out.println("      " + network.what());
            network.trouble().ifPresent(t -> out.println("      not usable: " + t));
        }
        return GOOD;
    }

    @Override
    public int print(What what) {
        out.print(
                switch (what) {
                    case DEMO -> DemoShoot.text();
                    case SCHEMA -> DemoShoot.schema();
                    case FIXTURE -> ExampleFixture.text();
                    case FIXTURE_SCHEMA -> ExampleFixture.schema();
                });
        out.flush();
        return GOOD;
    }

    private static PlanReading reading(Path file) {
        return reader().read(file);
    }

    private static PlanReader reader() {
        return new PlanReader(GenericFixtures.all(), new GdtfSource());
    }

    /** The plan in a file, good and with its warnings told; empty if it is not. */
    private Optional<ShootPlan> read(Path file) {
        PlanReading reading = reading(file);
        if (reading instanceof PlanReading.Bad bad) {
            bad.errors().forEach(e -> err.println(e.text(file.toString())));
            int many = bad.errors().size();
            err.printf(
                    "%nNothing was started: %d %s to mend.%n",
                    many, many == 1 ? "error" : "errors");
            return Optional.empty();
        }
        PlanReading.Good good = (PlanReading.Good) reading;
        good.warnings().forEach(w -> err.println(w.text(file.toString())));
        return Optional.of(good.plan());
    }

    /** The plan in a file that was found good, to be shot and edited; empty if it no longer is. */
    private Optional<PlanKeeper> keep(Path file) throws IOException {
        try {
            return Optional.of(PlanKeeper.of(file, reader()::read));
        } catch (EditRefused changedMeanwhile) {
            err.println(changedMeanwhile.getMessage());
            return Optional.empty();
        }
    }

    /** The demo; what was edited of it lies in its own folder. */
    private Optional<PlanKeeper> keepDemo(ShootFolder folder) throws IOException {
        Path edited = folder.path().resolve(DemoShoot.NAME);
        if (Files.exists(edited)) {
            return read(edited).isEmpty() ? Optional.empty() : keep(edited);
        }
        try {
            return Optional.of(PlanKeeper.unwritten(edited, reader()::read, DemoShoot.text()));
        } catch (EditRefused broken) {
            throw new IllegalStateException(broken);
        }
    }

    private void make(ShootFolder folder, boolean fresh) throws IOException {
        Journal.ensureFree(folder.journal());
        if (fresh) {
            folder.putAside(LocalDateTime.now(ZoneId.systemDefault()))
                    .ifPresent(aside -> out.println("The former one is kept in " + aside));
        }
        folder.make();
    }

    private static Session session(PlanKeeper plan, Gear gear, Journal journal, Http http)
            throws IOException {
        return Session.open(plan, gear, journal, http.host(), http.port());
    }

    /** What makes the stand-in take a picture when it changes. */
    private record Performed(String shot, int take, Adjustment adjustment) {}

    /** The run of plates that is being taken; empty for none. */
    private static String plates(LiveState state) {
        return state.plates().run().map(PlateRun::id).orElse("");
    }

    /** The simulated people and camera follow the running order, and the light. */
    private static void follow(Session session, Rehearsal rehearsal) {
        AtomicReference<Performed> performed =
                new AtomicReference<>(performed(session, session.live().state()));
        AtomicReference<Lighting> before = new AtomicReference<>(session.lighting());
        AtomicReference<String> plates = new AtomicReference<>("");
        session.live()
                .watch(
                        state -> {
                            Lighting lighting = session.lightings().of(state);
                            Performed now = performed(session, state);
                            Shown shown = lighting.shown(state);
                            boolean news = !now.equals(performed.getAndSet(now));
                            boolean edited = !sameAs(before.getAndSet(lighting), lighting);
                            rehearsal.follow(lighting.plan());
                            String run = plates(state);
                            boolean otherRun = !run.equals(plates.getAndSet(run));
                            if (shown.what() == Shown.What.PLATE) {
                                if (otherRun || edited) {
                                    placeForPlates(rehearsal, lighting, state);
                                }
                            } else if (news && shown.what() == Shown.What.LOOK) {
                                rehearsal.perform(lighting.shot(state), shown.look());
                            } else if (news || edited || otherRun) {
                                rehearsal.place(lighting.shot(state), shown.look());
                            }
                        });
    }

    /** Those who stand in, and the camera where the shot has it. */
    private static void placeForPlates(Rehearsal rehearsal, Lighting lighting, LiveState state) {
        Event.PlatesBegun begun = state.plates().run().orElseThrow().begun();
        lighting.plan()
                .shot(begun.shot())
                .ifPresent(
                        shot ->
                                rehearsal.placeForPlates(
                                        shot,
                                        lighting.plan().look(begun.look()).taken(begun.camera()),
                                        begun.standIn()));
    }

    /** One is made for each plan, place and so on. */
    @SuppressWarnings("ReferenceEquality")
    private static boolean sameAs(Lighting before, Lighting now) {
        return before == now;
    }

    private static Performed performed(Session session, LiveState state) {
        return new Performed(
                state.shot(),
                state.take(),
                session.lightings().of(state).shown(state).adjustment());
    }

    private void greet(String first, Session session, Http http) {
        LiveState state = session.live().state();
        Lighting lighting = session.lighting();
        String where =
                state.position() == 0
                        ? ""
                        : " Going on at shot %d of %d: %s. (Begin anew with --fresh.)"
                                .formatted(
                                        state.position(),
                                        state.course().order().size(),
                                        lighting.shot(state).name());
        out.print(
                Greeting.words(
                        plain(first.formatted(lighting.plan().title()) + where),
                        http,
                        session.port(),
                        session.keys().crew(),
                        session.keys().band(),
                        coloursWanted()));
        out.flush();
    }

    @SuppressWarnings("SystemConsoleNull") // from Java 22 on escape codes may get into a file
    private static boolean coloursWanted() {
        return System.console() != null && System.getenv("NO_COLOR") == null;
    }

    /** A terminal obeys control characters; those in a plan file are no orders. */
    private static String plain(String text) {
        return text.replaceAll("[\\p{Cntrl}&&[^\n]]", "?");
    }

    /** Waits for Ctrl-C or a polite kill, and then ends the parts in order. */
    private static void untilStopped(AutoCloseable... parts) {
        CountDownLatch stopped = new CountDownLatch(1);
        Runtime.getRuntime()
                .addShutdownHook(
                        new Thread(
                                () -> {
                                    for (AutoCloseable part : parts) {
                                        try {
                                            part.close();
                                        } catch (Exception e) {
                                            LOG.warn("while stopping: {}", e.getMessage());
                                        }
                                    }
                                    stopped.countDown();
                                },
                                "stop"));
        try {
            stopped.await();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** The system's own exceptions carry a path and little else. */
    private static String words(IOException e) {
        if (e instanceof NoSuchFileException missing) {
            return missing.getFile() + ": is not there; make it, or name another";
        } else if (e instanceof AccessDeniedException denied) {
            return denied.getFile() + ": no permission; make it yours, or name another";
        } else if (e instanceof FileSystemException other) {
            String reason =
                    other.getReason() == null
                            ? other.getClass().getSimpleName()
                            : other.getReason();
            return other.getFile() + ": cannot be used (" + reason + "); name another";
        }
        return e.getMessage();
    }

    private int failed(IOException e) {
        err.println(words(e));
        return FAILED;
    }
}
