package lookstep.server.desk;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import lookstep.protocols.fixture.Fixture;
import lookstep.server.lighting.Lightings;
import lookstep.server.live.Live;
import lookstep.server.live.NotPossible;
import lookstep.server.order.Variety;
import lookstep.server.plan.PlanHash;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plan.edit.Difference;
import lookstep.server.plan.edit.Edit;
import lookstep.server.plan.edit.EditRefused;
import lookstep.server.plan.edit.Look;
import lookstep.server.plan.edit.Outcome;
import lookstep.server.plan.edit.PlanKeeper;
import lookstep.server.plan.edit.Version;
import lookstep.server.plan.file.PlanError;
import lookstep.server.suggest.NewShot;
import lookstep.server.web.ChecksPart;
import lookstep.server.web.PlanDesk;
import lookstep.server.web.PlanPart;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The plan file of a shoot that is under way. Safe for any thread. */
public final class Desk implements PlanDesk {
    private static final Logger LOG = LoggerFactory.getLogger(Desk.class);
    private static final long LOOK_NANOS = 500_000_000;
    private static final int MOST_SAID = 3;

    private final PlanKeeper keeper;
    private final List<Fixture> builtIn;
    private final Lightings lightings;
    private final Live live;
    private final PlanChecking checking;
    private final Runnable changed;
    private volatile PlanPart standing = PlanPart.FIRST;
    private boolean behind;

    /**
     * @param builtIn kinds of light that a plan may name
     * @param changed is called when there is something new to show
     */
    public Desk(
            PlanKeeper keeper,
            List<Fixture> builtIn,
            Lightings lightings,
            Live live,
            PlanChecking checking,
            Runnable changed) {
        this.keeper = keeper;
        this.builtIn = List.copyOf(builtIn);
        this.lightings = lightings;
        this.live = live;
        this.checking = checking;
        this.changed = changed;
        standing = new PlanPart(keeper.current().revision(), "", "");
    }

    /** Looks whether the file was changed outside. */
    public long doWork(long nowNanos) {
        try {
            look();
        } catch (IOException | RuntimeException e) {
            LOG.error("the plan file: {}", e.getMessage(), e);
        }
        return nowNanos + LOOK_NANOS;
    }

    private synchronized void look() throws IOException {
        if (behind) {
            follow();
        }
        Look look = keeper.look();
        String problem = look.trouble().map(trouble -> trouble + errors(look.errors())).orElse("");
        if (look.isNew()) {
            take(look.now(), problem, outside(look.changed()));
        } else if (!problem.equals(standing.problem())) {
            standing = new PlanPart(standing.revision(), problem, standing.says());
            changed.run();
        }
    }

    private static String errors(List<PlanError> errors) {
        return errors.stream()
                .limit(MOST_SAID)
                .map(e -> "; line " + e.line() + ": " + e.what() + ": " + e.mend())
                .collect(Collectors.joining());
    }

    private static String outside(List<Difference> differences) {
        if (differences.isEmpty()) {
            return "";
        }
        String some =
                differences.stream()
                        .limit(MOST_SAID)
                        .map(Difference::words)
                        .collect(Collectors.joining("; "));
        int more = differences.size() - MOST_SAID;
        return "Changed outside: " + some + (more > 0 ? "; and " + more + " more" : "");
    }

    /** The plan is this one from now on: light, order and checks follow. */
    private void take(Version version, String problem, String says) throws IOException {
        ShootPlan before = lightings.read();
        lightings.read(version.plan());
        standing = new PlanPart(version.revision(), problem, says);
        behind = true;
        for (Renaming one : Renaming.between(before, version.plan())) {
            live.renamed(one.kind(), one.from(), one.to());
        }
        follow();
    }

    /** A journal that could not be written is tried again with the next look. */
    private void follow() throws IOException {
        live.planChanged(PlanHash.of(lightings.read()));
        behind = false;
        checking.of(live.state());
        changed.run();
    }

    @Override
    public PlanPart standing() {
        return standing;
    }

    @Override
    public ChecksPart checks() {
        return checking.part();
    }

    @Override
    public Variety variety(ShootPlan plan) {
        return checking.variety(plan);
    }

    @Override
    public Object document() {
        Version now = keeper.current();
        return new DeskDocument(
                String.valueOf(keeper.file().getFileName()),
                now.revision(),
                keeper.undoable().orElse(null),
                keeper.redoable().orElse(null),
                standing.problem(),
                standing.says(),
                now.json(),
                DeskDocument.Known.of(builtIn, now.plan()));
    }

    @Override
    public Path folder() {
        return keeper.file().toAbsolutePath().normalize().getParent();
    }

    @Override
    public synchronized void edit(JsonNode body) throws NotPossible, IOException {
        if (body.path("undo").asBoolean()) {
            take(keeper.undo());
        } else if (body.path("redo").asBoolean()) {
            take(keeper.redo());
        } else {
            List<Edit> edits;
            try {
                // what somebody else wrote meanwhile is what the page's words are held against
                look();
                edits = PageEdits.read(body.path("edits"), keeper.current().document());
            } catch (EditRefused e) {
                throw new NotPossible(e.what() + ": " + e.mend());
            } catch (IllegalArgumentException e) {
                throw new NotPossible("this is no edit (" + e.getMessage() + "): reload the page");
            }
            take(keeper.edit(edits, body.path("says").asText("")));
        }
    }

    @Override
    public synchronized void put(lookstep.server.plan.Look look, Shot base, String says)
            throws NotPossible, IOException {
        look();
        ShootPlan plan = keeper.current().plan();
        if (plan.looks().stream().anyMatch(l -> l.name().equals(look.name()))) {
            throw new NotPossible(
                    "the plan has a look ‘" + look.name() + "’ already: choose another name");
        }
        take(keeper.edit(NewShot.edits(plan, base, look, keeper.current().json()), says));
    }

    @Override
    public synchronized void mend(String finding) throws NotPossible, IOException {
        try {
            take(
                    keeper.edit(
                            checking.mend(finding, keeper.current().document()),
                            checking.mendSays(finding)));
        } catch (EditRefused e) {
            throw new NotPossible(e.what() + ": " + e.mend());
        }
    }

    private void take(Outcome outcome) throws NotPossible, IOException {
        if (outcome instanceof Outcome.Refused refused) {
            if (refused.now().revision() != standing.revision()) {
                take(refused.now(), "", outside(refused.outside()));
            }
            throw new NotPossible(
                    refused.errors().isEmpty()
                            ? refused.what() + ": " + refused.mend()
                            : refused.what() + errors(refused.errors()));
        }
        take(outcome.now(), "", outside(outcome.outside()));
    }
}
