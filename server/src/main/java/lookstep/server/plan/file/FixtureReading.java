package lookstep.server.plan.file;

import java.util.List;
import lookstep.protocols.fixture.Fixture;

/** What came of reading a file that describes a fixture. */
public sealed interface FixtureReading {
    /**
     * The file can be worked with.
     *
     * @param notes what was guessed, left out or looks odd, in plain sentences; empty when all is
     *     well
     */
    record Good(Fixture fixture, List<String> notes) implements FixtureReading {
        public Good {
            notes = List.copyOf(notes);
        }
    }

    /**
     * The file cannot be worked with.
     *
     * @param errors everything found, by place; at least one
     */
    record Bad(List<PlanError> errors) implements FixtureReading {
        public Bad {
            errors = List.copyOf(errors);
        }
    }
}
