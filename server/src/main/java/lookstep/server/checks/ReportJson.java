package lookstep.server.checks;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonPropertyOrder;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Map;
import lookstep.server.plan.ShootPlan;

/**
 * A report for programs. Keys stay; new ones may be added without a new version.
 *
 * @param version of this form
 * @param title the plan's
 * @param place that was checked
 * @param worst heaviest weight of all findings
 * @param findings in the order of the report
 */
@JsonPropertyOrder({"version", "title", "place", "worst", "findings"})
public record ReportJson(
        int version, String title, String place, String worst, List<Entry> findings) {
    public static final int VERSION = 1;

    private static final ObjectMapper JSON =
            new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);

    /**
     * One finding; what is empty is left out.
     *
     * @param kind as {@link Kind#id()}
     * @param weight good, look or wrong
     */
    @JsonInclude(JsonInclude.Include.NON_EMPTY)
    @JsonPropertyOrder({
        "kind", "weight", "shot", "look", "person", "light", "says", "numbers", "mend"
    })
    public record Entry(
            String kind,
            String weight,
            String shot,
            String look,
            String person,
            String light,
            String says,
            Map<String, Object> numbers,
            MendEntry mend) {}

    /** What would help, and the edits that carry it out. */
    @JsonInclude(JsonInclude.Include.NON_EMPTY)
    @JsonPropertyOrder({"says", "changes"})
    public record MendEntry(String says, List<ChangeEntry> changes) {}

    /** One edit of the plan file. */
    @JsonPropertyOrder({"path", "value"})
    public record ChangeEntry(List<Object> path, Object value) {}

    public static ReportJson of(ShootPlan plan, Report report) {
        return new ReportJson(
                VERSION,
                plan.title(),
                plan.place().name(),
                weight(report.worst()),
                report.findings().stream().map(ReportJson::entry).toList());
    }

    /** As text, UTF-8 when written, with a line feed at its end. */
    public String text() {
        try {
            return JSON.writeValueAsString(this) + "\n";
        } catch (JsonProcessingException e) {
            throw new IllegalStateException(e);
        }
    }

    /** The same with more keys at its end. */
    public String text(Map<String, ?> more) {
        ObjectNode all = JSON.valueToTree(this);
        more.forEach((key, value) -> all.set(key, JSON.valueToTree(value)));
        try {
            return JSON.writeValueAsString(all) + "\n";
        } catch (JsonProcessingException e) {
            throw new IllegalStateException(e);
        }
    }

    private static String weight(Weight w) {
        return switch (w) {
            case GOOD -> "good";
            case LOOK -> "look";
            case WRONG -> "wrong";
        };
    }

    private static Entry entry(Finding f) {
        Subject s = f.subject();
        return new Entry(
                f.kind().id(),
                weight(f.weight()),
                s.shot(),
                s.look(),
                s.person(),
                s.light(),
                f.says(),
                f.numbers(),
                f.mend().map(ReportJson::mend).orElse(null));
    }

    private static MendEntry mend(Mend m) {
        return new MendEntry(
                m.says(),
                m.changes().stream().map(c -> new ChangeEntry(c.path(), c.value())).toList());
    }
}
