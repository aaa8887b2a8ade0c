package lookstep.server.plan.file;

import java.util.List;
import lookstep.protocols.fixture.Fixture;

/** What came of reading a file that describes a fixture. */
public sealed interface FixtureReading {
    /**
     * The file can be worked with.
     *
     * @param fixtures at least one; several if the file's modes are of lights that have to be told
     *     apart
     * @param notes what was guessed, left out or looks odd, in plain sentences; empty when all is
     *     well
     */
    record Good(List<Fixture> fixtures, List<String> notes) implements FixtureReading {
        public Good {
            fixtures = List.copyOf(fixtures);
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
