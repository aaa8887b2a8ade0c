package lookstep.server.cli;

import java.nio.file.Path;
import java.util.Optional;
import lookstep.server.paper.PaperSize;
import lookstep.server.rehearsal.Rehearsal;

/** What the commands do; each returns the exit code. */
public interface Actions {
    /** All went well. */
    int GOOD = 0;

    /** Something outside went wrong: a folder, an address, a journal. */
    int FAILED = 1;

    /** The plan or the command line is wrong. Picocli uses the same number. */
    int WRONG = 2;

    /**
     * Begins a plan: the least that can be photographed.
     *
     * @param file must not be there yet
     */
    int begin(Path file);

    /**
     * Rehearses on simulated gear until stopped.
     *
     * @param plan empty for the demo shoot
     * @param frames where the simulated camera's pictures arrive; empty for a folder of the
     *     rehearsal's own
     * @param way how they get there
     * @param copies the second place of each original
     * @param fresh put a former rehearsal aside and begin anew
     */
    int rehearse(
            Optional<Path> plan,
            Optional<Path> frames,
            Rehearsal.Way way,
            Optional<Path> copies,
            Http http,
            boolean fresh);

    /** Shoots on real gear until stopped. */
    int shoot(Path plan, Outputs outputs, CameraWays ways, Http http, boolean fresh);

    /** Reads a plan or a fixture's file and says what is wrong with it, or what it comes to. */
    int check(Path file, Checking how);

    /**
     * How a plan is checked.
     *
     * @param json for programs instead of for people
     * @param strict findings that are wrong give exit code {@link #FAILED}
     * @param place one of the plan's; empty for the first
     * @param suggest how many looks to suggest; 0 for none
     * @param shot id of the shot they are for; empty for the first
     */
    record Checking(boolean json, boolean strict, String place, int suggest, String shot) {}

    /** Writes a plan that was found good as a PDF to print. */
    int paper(Path plan, Path pdf, PaperSize size);

    /** Lists the serial adapters and the network interfaces. */
    int ports();

    /** Prints an example file, or a JSON Schema. */
    int print(What what);

    /** What can be printed. */
    enum What {
        SCHEMA,
        DEMO,
        FIXTURE,
        FIXTURE_SCHEMA
    }
}
