package lookstep.server.checks;

import java.util.List;

/**
 * All that was found, by kind, the heaviest of a kind first.
 *
 * @param findings in order
 */
public record Report(List<Finding> findings) {
    public Report {
        findings = List.copyOf(findings);
    }

    /** Those of one kind. */
    public List<Finding> of(Kind kind) {
        return findings.stream().filter(f -> f.kind() == kind).toList();
    }

    /** The same without one kind, which is said elsewhere. */
    public Report without(Kind kind) {
        return new Report(findings.stream().filter(f -> f.kind() != kind).toList());
    }

    /** The heaviest weight of all. */
    public Weight worst() {
        return findings.stream().map(Finding::weight).reduce(Weight.GOOD, Weight::or);
    }
}
