package lookstep.server.desk;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.NullNode;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Set;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.RejectedExecutionException;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import java.util.stream.StreamSupport;
import lookstep.server.checks.Change;
import lookstep.server.checks.Finding;
import lookstep.server.checks.Likeness;
import lookstep.server.checks.MeasuredLight;
import lookstep.server.checks.Mend;
import lookstep.server.checks.PlanChecks;
import lookstep.server.checks.Weight;
import lookstep.server.lighting.Lightings;
import lookstep.server.live.LiveState;
import lookstep.server.live.NotPossible;
import lookstep.server.order.Variety;
import lookstep.server.plan.PlanWords;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plan.edit.Edit;
import lookstep.server.plan.edit.EditRefused;
import lookstep.server.plan.edit.PlanDocument;
import lookstep.server.plan.edit.PlanPath;
import lookstep.server.plan.file.ShotEntries;
import lookstep.server.web.ChecksPart;
import lookstep.server.web.ChecksPart.FindingPart;
import lookstep.server.window.PlannedOrder;
import lookstep.server.window.ShotItems;
import lookstep.server.window.TimeCheck;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The plan's checks while it is shot: worked out on a thread of their own, of the newest plan only.
 * Safe for any thread.
 */
public final class PlanChecking implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(PlanChecking.class);
    private static final ObjectMapper JSON = JsonMapper.builder().build();

    /** As the last step of a path: behind the last entry of a list. */
    private static final String APPENDS = "+";

    /** More is not read on a page. */
    private static final int MOST_SHOWN = 200;

    private static final int MOST_NUMBERS = 8;

    private final Lightings lightings;
    private final Supplier<String> plates;
    private final Function<ShootPlan, MeasuredLight> measured;
    private final PlanChecks checks = new PlanChecks();
    private final Runnable changed;
    private final ExecutorService thread;
    private volatile Worked worked = new Worked(null, List.of(), null);
    private volatile Wanted wanted;

    /** What the checks are to be of; which plates, empty for none. */
    private record Wanted(ShootPlan plan, String plates) {}

    /**
     * What was found.
     *
     * @param of what; null before the first
     * @param findings the heaviest first
     * @param variety null if it could not be worked out
     */
    private record Worked(Wanted of, List<Named> findings, Variety variety) {}

    private record Named(String id, Finding finding) {}

    /**
     * @param plates tells the plates that hold now from others; empty if there are none
     * @param measured what plates say of the lights of a plan now; may take a second
     * @param changed is called when there is something new
     */
    public PlanChecking(
            Lightings lightings,
            Supplier<String> plates,
            Function<ShootPlan, MeasuredLight> measured,
            Runnable changed) {
        this.lightings = lightings;
        this.plates = plates;
        this.measured = measured;
        this.changed = changed;
        thread =
                Executors.newSingleThreadExecutor(
                        r -> {
                            Thread t = new Thread(r, "plan checks");
                            t.setDaemon(true);
                            return t;
                        });
    }

    /**
     * Looks at the plan as it is in a state, if it has not yet with these plates. Returns at once.
     */
    public void of(LiveState state) {
        Wanted now = new Wanted(lightings.of(state).plan(), plates.get());
        if (now.equals(wanted)) {
            return;
        }
        wanted = now;
        Set<String> added = state.added().stream().map(Shot::id).collect(Collectors.toSet());
        try {
            thread.execute(() -> work(now, added));
        } catch (RejectedExecutionException ending) {
            LOG.debug("no more checks of the plan: the program ends");
        }
    }

    /**
     * @param added ids of shots that the file does not have: nothing of them can be mended there
     */
    private void work(Wanted of, Set<String> added) {
        if (!of.equals(wanted)) {
            return;
        }
        ShootPlan plan = of.plan();
        try {
            Variety variety = variety(plan, Likeness.of(plan));
            List<Finding> all = new ArrayList<>();
            checks.check(plan, measured.apply(plan))
                    .findings()
                    .forEach(f -> all.add(byHand(f, added)));
            ShootPlan written = without(plan, added);
            all.addAll(TimeCheck.of(written, PlannedOrder.of(written, variety)));
            all.sort(Comparator.comparing(Finding::weight).reversed());
            List<Named> named = new ArrayList<>();
            for (Finding finding : all) {
                named.add(new Named(id(finding, named), finding));
            }
            worked = new Worked(of, List.copyOf(named), variety);
        } catch (RuntimeException e) {
            LOG.error("the plan could not be checked: {}", e.toString(), e);
            worked = new Worked(of, List.of(), null);
        }
        changed.run();
    }

    private static Finding byHand(Finding f, Set<String> added) {
        return added.contains(f.subject().shot())
                ? new Finding(
                        f.kind(),
                        f.weight(),
                        f.subject(),
                        f.says(),
                        f.numbers(),
                        f.mend().map(m -> new Mend(m.says(), List.of())))
                : f;
    }

    private static ShootPlan without(ShootPlan plan, Set<String> added) {
        return plan.withShots(plan.shots().stream().filter(s -> !added.contains(s.id())).toList());
    }

    private static Variety variety(ShootPlan plan, Likeness likeness) {
        // The same picture for another client is another wish.
        List<String> clients =
                likeness.shots().stream()
                        .map(id -> plan.shot(id).map(s -> s.use().job()).orElse(""))
                        .toList();
        int n = likeness.shots().size();
        double[][] alike = new double[n][n];
        for (int i = 0; i < n; i++) {
            for (int j = 0; j < n; j++) {
                alike[i][j] =
                        clients.get(i).equals(clients.get(j)) ? likeness.alike().get(i).get(j) : 0;
            }
        }
        return Variety.given(likeness.shots(), alike);
    }

    /** The same for the same finding of another plan, so that a press hits what was read. */
    private static String id(Finding f, List<Named> before) {
        String id =
                String.join(
                        "/",
                        f.kind().id(),
                        f.subject().shot(),
                        f.subject().look(),
                        f.subject().person(),
                        f.subject().light());
        long same = before.stream().filter(n -> n.id().startsWith(id)).count();
        return same == 0 ? id : id + "/" + (same + 1);
    }

    /** For the pages. */
    ChecksPart part() {
        Worked now = worked;
        return new ChecksPart(
                now.of() != null && now.of().equals(wanted),
                count(now, Weight.WRONG),
                count(now, Weight.LOOK),
                now.findings().stream().limit(MOST_SHOWN).map(PlanChecking::part).toList());
    }

    private static int count(Worked worked, Weight weight) {
        return (int) worked.findings().stream().filter(n -> n.finding().weight() == weight).count();
    }

    private static FindingPart part(Named named) {
        Finding f = named.finding();
        return new FindingPart(
                named.id(),
                f.kind().heading(),
                switch (f.weight()) {
                    case WRONG -> "wrong";
                    case LOOK -> "look";
                    case GOOD -> "good";
                },
                f.subject().shot(),
                f.says(),
                // of what is good nobody asks why, and each message has all of them
                f.weight() == Weight.GOOD ? "" : numbers(f.numbers()),
                f.mend().map(Mend::says).orElse(""),
                f.mend().map(m -> !m.changes().isEmpty()).orElse(false));
    }

    private static String numbers(Map<String, Object> numbers) {
        return numbers.entrySet().stream()
                .limit(MOST_NUMBERS)
                .map(e -> words(e.getKey()) + " " + value(e.getValue()))
                .collect(Collectors.joining(", "));
    }

    /** {@code fNumberNeeded} becomes {@code f number needed}. */
    private static String words(String name) {
        return name.replaceAll(
                        "(?<=[a-z0-9])(?=[A-Z])|(?<=[A-Z])(?=[A-Z][a-z])|(?<=[a-z])(?=[0-9])", " ")
                .toLowerCase(Locale.ROOT);
    }

    private static String value(Object value) {
        return value instanceof Double d
                ? PlanWords.number(Math.round(d * 100) / 100.0)
                : "" + value;
    }

    /** How alike the shots of a plan are; from what is planned while it is not worked out. */
    Variety variety(ShootPlan plan) {
        Worked now = worked;
        return now.variety() != null && plan.equals(now.of().plan())
                ? now.variety()
                : Variety.of(ShotItems.of(plan));
    }

    /**
     * The edits that mend a finding.
     *
     * @throws NotPossible if it is no longer there, or is mended by hand
     */
    List<Edit> mend(String id, PlanDocument document) throws NotPossible, EditRefused {
        Mend mend = known(id);
        if (mend.changes().isEmpty()) {
            throw new NotPossible("this is mended by hand: " + mend.says());
        }
        List<Edit> edits = new ArrayList<>();
        for (Change change : mend.changes()) {
            List<Object> steps = inFile(change.path(), document);
            JsonNode value = JSON.valueToTree(change.value());
            if (steps.get(steps.size() - 1).equals(APPENDS)) {
                List<Object> list = steps.subList(0, steps.size() - 1);
                edits.add(new Edit.Insert(PlanPath.of(JSON.valueToTree(list)), value));
            } else {
                PlanPath path = PlanPath.of(JSON.valueToTree(steps));
                edits.add(new Edit.Set(path, there(document, path), value));
            }
        }
        return edits;
    }

    /** The file may leave a shot's id to be made from its name, or have it in a round of solos. */
    private static List<Object> inFile(List<Object> path, PlanDocument document) {
        if (path.size() < 2
                || !path.get(0).equals("shots")
                || !(path.get(1) instanceof Map<?, ?> choice)
                || !choice.containsKey("id")) {
            return path;
        }
        OptionalInt index =
                ShotEntries.of(
                        document.toJson().path("shots"),
                        StreamSupport.stream(document.toJson().path("people").spliterator(), false)
                                .map(p -> p.path("name").asText())
                                .toList(),
                        String.valueOf(choice.get("id")));
        if (index.isEmpty()) {
            return path;
        }
        List<Object> steps = new ArrayList<>(path);
        steps.set(1, index.getAsInt());
        return steps;
    }

    private static JsonNode there(PlanDocument document, PlanPath path) {
        try {
            return document.at(path);
        } catch (EditRefused absent) {
            return NullNode.instance;
        }
    }

    /** What it comes to, for undo. */
    String mendSays(String id) throws NotPossible {
        return known(id).says();
    }

    private Mend known(String id) throws NotPossible {
        Worked now = worked;
        if (now.of() == null || !now.of().equals(wanted)) {
            throw new NotPossible("the plan was just changed: the checks follow in a moment");
        }
        return now.findings().stream()
                .filter(n -> n.id().equals(id))
                .findFirst()
                .flatMap(n -> n.finding().mend())
                .orElseThrow(() -> new NotPossible("this is no longer so: the plan has changed"));
    }

    @Override
    public void close() {
        thread.shutdownNow();
    }
}
