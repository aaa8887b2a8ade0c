package lookstep.server.plan.file;

import java.nio.file.Path;

/** Reads files of one kind that describe a fixture. */
public interface FixtureSource {
    /** Reads the file at {@code path}. Never throws for what is there or what it has. */
    FixtureReading read(Path path);
}
